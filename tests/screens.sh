#!/bin/sh
# sh tests/screens.sh DIR   builds the pages and writes pictures of every station and printed page, at tablet (both ways),
#                           laptop and phone size, into DIR, for people to look at
set -eu
[ $# = 1 ] || { echo "usage: sh tests/screens.sh DIR" >&2; exit 1; }
mkdir -p "$1"
pictures=$(cd "$1" && pwd)
cd "$(dirname "$0")/.."
. web/packages.sh
need_packages npm chromium
site=$(sh web/serve.sh --build-only | tail -n 1)
node tests/web/screens.mjs "$site" "$pictures"
