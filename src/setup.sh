# SPDX-License-Identifier: GPL-3.0-or-later
# Sourced by src/start.sh, tests/run.sh and .ci/run: puts on a bare Debian 12 what they need.
# The lists are the one place where packages are named; DEVELOPERS.md gives the reasons.

build_packages="gcc libc6-dev meson pkg-config gettext libglib2.0-dev libjson-glib-dev \
libcairo2-dev libpango1.0-dev libgtk-4-dev adwaita-icon-theme fonts-inter fonts-dejavu-core fontconfig"
test_packages="python3 python3-jsonschema dmidecode poppler-utils qpdf imagemagick librsvg2-bin \
libxml2-utils man-db bash mawk xvfb xauth dbus xdotool openbox at-spi2-core python3-pyatspi \
desktop-file-utils appstream libglpk-dev"
check_packages="git clang-format-14 libclang-rt-14-dev clang-14"

# need PACKAGE…: installs those that are missing; says what to do when it may not.
need ()
{
  missing=
  for package in "$@"; do
    case $(dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null) in
      installed) ;;
      *) missing="$missing $package" ;;
    esac
  done
  [ -z "$missing" ] && return 0
  if ! command -v apt-get >/dev/null 2>&1; then
    echo "These packages are missing, and this is no Debian:$missing" >&2
    return 1
  fi
  as_root=
  if [ "$(id -u)" -ne 0 ]; then
    if ! command -v sudo >/dev/null 2>&1; then
      echo "Please run as root: apt-get install$missing" >&2
      return 1
    fi
    as_root=sudo
  fi
  echo "installing:$missing"
  $as_root apt-get update -qq
  # shellcheck disable=SC2086 # a list of words
  DEBIAN_FRONTEND=noninteractive $as_root apt-get install -y -qq --no-install-recommends $missing \
    >/dev/null
}

# configure FOLDER [MESON OPTION…]: sets the build folder up once.
configure ()
{
  folder=$1
  shift
  [ -f "$folder/meson-private/build.dat" ] && return 0
  log=$(mktemp)
  if meson setup "$folder" "$@" >"$log" 2>&1; then
    rm -f "$log"
    return 0
  fi
  cat "$log" >&2
  rm -rf "$folder" "$log"
  return 1
}
