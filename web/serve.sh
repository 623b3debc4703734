#!/bin/sh
# sh web/serve.sh                installs what is missing, builds the pages, serves them on this machine only
# sh web/serve.sh --build-only   builds the pages; the last line printed is their folder, ready for any web host
set -eu
cd "$(dirname "$0")/.."
case ${1-} in
  "" | --build-only) ;;
  *) echo "usage: sh web/serve.sh [--build-only]" >&2; exit 1 ;;
esac

. web/packages.sh
# shellcheck disable=SC2086
need_packages $pages_packages

build=build-web
emcmake cmake -S . -B $build -G Ninja >&2
cmake --build $build --target coatwright_pages >&2
site=$(pwd)/$build/site
if [ "${1-}" = --build-only ]; then
  echo "$site"
  exit 0
fi

# The same port each time if it is free, because a browser keeps its tickets by address; else one that the system chooses.
exec /usr/bin/python3 -u - "$site" <<'PYTHON'
import functools, http.server, sys

handler = functools.partial(http.server.SimpleHTTPRequestHandler, directory=sys.argv[1])
try:
    server = http.server.ThreadingHTTPServer(("127.0.0.1", 8642), handler)
except OSError:
    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler)
print(f"Coatwright is at http://127.0.0.1:{server.server_address[1]}/ (Ctrl+C stops it)", flush=True)
try:
    server.serve_forever()
except KeyboardInterrupt:
    pass
PYTHON
