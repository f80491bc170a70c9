# Sourced by sample_region/run and tests/run: which Debian 12 packages the house needs, and how
# missing ones are installed.

packages_to_build="cmake ninja-build g++ coinor-libcbc-dev coinor-libclp-dev fonts-dejavu-core libboost1.74-dev libcairo2-dev libcli11-dev libfmt-dev libgdal-dev
    libgeos-dev libpango1.0-dev libproj-dev libsqlite3-dev libssl-dev libtbb-dev libtomlplusplus-dev
    libxlsxwriter-dev nlohmann-json3-dev pkg-config"
packages_to_test="catch2 librapidcheck-dev liblemon-dev libxml2-utils poppler-utils xz-utils"
packages_to_browse="chromium nodejs"  # report.html in a real browser
packages_to_check="clang-19 clang-format-19 clang-tidy-19 libbenchmark-dev libclang-rt-19-dev python3-gdal python3-scipy"

# install_missing PACKAGE...: installs what is not installed yet. Says nothing and starts no apt
# when nothing is missing. Elsewhere than on Debian it does nothing; CMake then says what it misses.
install_missing() {
    local missing
    command -v dpkg-query >/dev/null || return 0
    missing=$(missing_of "$@")
    if [ -z "$missing" ]; then
        return 0
    fi
    local as_root=""
    if [ "$(id -u)" -ne 0 ]; then
        if ! may_sudo; then
            say_how_to_install "$missing"
            return 1
        fi
        as_root="sudo"
    fi
    echo "Installing Debian packages, once: $missing"
    quietly $as_root apt-get -o DPkg::Lock::Timeout=120 update -qq &&
        quietly $as_root env DEBIAN_FRONTEND=noninteractive \
            apt-get -o DPkg::Lock::Timeout=120 install -qq -y --no-install-recommends $missing
}

# Those of the packages that are not installed, on one line.
missing_of() {
    local installed
    installed=" $(dpkg-query -W -f '${db:Status-Status}:${Package} ' "$@" 2>/dev/null) "
    local package missing=""
    for package in "$@"; do
        case "$installed" in
            *" installed:$package "*) ;;
            *) missing="$missing $package" ;;
        esac
    done
    echo $missing
}

# A password can be asked for only where somebody sits at a terminal.
may_sudo() {
    command -v sudo >/dev/null && { sudo -n true 2>/dev/null || [ -t 0 ]; }
}

say_how_to_install() {
    {
        echo "Some Debian packages are missing, and this user may not install them. As root, run"
        echo "  apt-get update && apt-get install --no-install-recommends $1"
        echo "and then this command again."
    } >&2
}

# quietly COMMAND...: runs it and shows what it printed only when it fails.
quietly() {
    local log status=0
    log=$(mktemp)
    "$@" >"$log" 2>&1 </dev/null || status=$?
    if [ "$status" -ne 0 ]; then
        tail -n 200 "$log" >&2
        echo "Failed with exit code $status: $*" >&2
    fi
    rm -f "$log"
    return "$status"
}
