#!/bin/sh
# sh web/sdl.sh   prints the folder with SDL2 built static for WebAssembly (include/SDL2, lib/libSDL2.a), which is
# built once into the cache: about three minutes on two cores.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
source=$(sh "$here/fetch.sh" libsdl2)
# The studio draws through WebGL and listens to mouse, touch and keys; nothing else of SDL is wanted.
flags="-DSDL_SHARED=OFF -DSDL_STATIC=ON -DSDL_TEST=OFF -DSDL_AUDIO=OFF -DSDL_HAPTIC=OFF -DSDL_JOYSTICK=OFF
  -DSDL_SENSOR=OFF -DSDL_HIDAPI=OFF -DSDL_THREADS=OFF -DSDL_RENDER=OFF -DCMAKE_BUILD_TYPE=MinSizeRel"
key=$({ echo "$source $flags"; emcc --version | sed -n 1p; } | sha256sum | cut -c1-12)
folder=$(dirname "$source")/sdl2-wasm-$key
if [ ! -d "$folder" ]; then
  echo "web/sdl.sh: building SDL2 for WebAssembly (once, a few minutes)" >&2
  work=$(mktemp -d "$folder.XXXXXX")
  trap 'rm -rf "$work"' EXIT
  trap 'exit 1' INT TERM HUP
  # shellcheck disable=SC2086
  {
    emcmake cmake -S "$source" -B "$work/build" -G Ninja -DCMAKE_INSTALL_PREFIX="$work/sdl2" $flags &&
      cmake --build "$work/build" && cmake --install "$work/build"
  } >"$work/log" 2>&1 || { tail -n 40 "$work/log" >&2; exit 1; }
  mv -T "$work/sdl2" "$folder" 2>/dev/null || [ -d "$folder" ]
fi
echo "$folder"
