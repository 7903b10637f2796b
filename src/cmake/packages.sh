# shellcheck shell=bash disable=SC2034
# SPDX-License-Identifier: GPL-3.0-or-later
# The one list of Debian 12 packages, and how scripts install what is missing. Sourced by tests/run and
# examples/quickstart; needs bash.

# What the program needs to be built.
TINWRIGHT_BUILD_PACKAGES=(
  g++ cmake ninja-build
  libeigen3-dev nlohmann-json3-dev libfmt-dev libspdlog-dev libgeos-dev libcli11-dev libdxflib-dev libtbb-dev
)
# What the tests and the plan verifier need besides; dpkg-dev makes the package that one of them tries.
TINWRIGHT_TEST_PACKAGES=(
  catch2 libfcl-dev libglpk-dev libpugixml-dev libvalijson-dev python3-gdal gringo clang-format clang-tidy dpkg-dev file
)

tinwright_is_installed() {
  [ "$(dpkg-query -W -f='${db:Status-Status}' "$1" 2>/dev/null)" = installed ]
}

# Installs those of the named packages that are missing; says which.
tinwright_install_missing() {
  local missing=() package as_root=()
  for package in "$@"; do
    tinwright_is_installed "$package" || missing+=("$package")
  done
  [ ${#missing[@]} -eq 0 ] && return 0
  if [ "$(id -u)" -ne 0 ]; then
    if ! command -v sudo >/dev/null; then
      echo "These packages are missing: ${missing[*]}" >&2
      echo "Run this as root, or install sudo, or install them by hand." >&2
      return 1
    fi
    as_root=(sudo)
  fi
  echo "Installing missing packages: ${missing[*]}"
  # Old package lists name files that are no longer there; without a network the install may still come from a cache.
  "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get update -q ||
    echo "Could not refresh the package lists; trying with those at hand." >&2
  "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y -q --no-install-recommends "${missing[@]}"
}

# Options of `cmake` for a faster second build, one a line.
tinwright_cmake_launcher() {
  if command -v ccache >/dev/null; then echo -DCMAKE_CXX_COMPILER_LAUNCHER=ccache; fi
}
