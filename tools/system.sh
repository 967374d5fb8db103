#!/bin/sh
# What the system must have -> installed where it is missing and may be, else one line that says what to run.
# Usage: tools/system.sh demo|test   (Debian and Ubuntu are served by apt-get; macOS is told what to run)
set -eu

want=${1:-demo}
missing=""
PYTHON=$(sh "$(dirname "$0")/python.sh" 2>/dev/null || true)

# Say whether a shared library can be loaded: name on Linux, name on macOS.
library() {
    "${PYTHON:-false}" -c "import ctypes, sys; ctypes.CDLL(sys.argv[1])" "$1" 2>/dev/null
}

lack() { missing="$missing $1"; }

has_command() { command -v "$1" >/dev/null 2>&1; }

has_browser() {
    has_command chromium || has_command chromium-browser || has_command google-chrome ||
        [ -d "/Applications/Chromium.app" ] || [ -d "/Applications/Google Chrome.app" ]
}

linux() {
    "${PYTHON:-false}" -c "import ensurepip" 2>/dev/null || lack "python3 python3-venv"
    library libpango-1.0.so.0 || lack libpango-1.0-0
    library libpangoft2-1.0.so.0 || lack libpangoft2-1.0-0
    library libharfbuzz-subset.so.0 || lack libharfbuzz-subset0
    # A font to set pages in.
    { has_command fc-list && [ -n "$(fc-list 2>/dev/null | head -n 1)" ]; } || lack "fontconfig fonts-dejavu-core"
    [ "$want" = test ] || return 0
    # Ubuntu has other names for these two.
    if grep -qs '^ID=ubuntu' /etc/os-release; then browser=chromium-browser driver=chromium-chromedriver; fi
    has_browser || lack "${browser:-chromium}"
    has_command chromedriver || lack "${driver:-chromium-driver}"
    has_command pdftotext || lack poppler-utils
    has_command qpdf || lack qpdf
    has_command java || lack default-jre-headless
    has_command node || lack nodejs
    has_command npm || lack npm
}

macos() {
    [ -n "$PYTHON" ] || lack python
    library libpango-1.0.dylib || library /opt/homebrew/lib/libpango-1.0.dylib || lack pango
    [ "$want" = test ] || return 0
    has_browser || lack "--cask chromium"
    has_command chromedriver || lack "--cask chromedriver"
    has_command pdftotext || lack poppler
    has_command qpdf || lack qpdf
    has_command java || lack openjdk
    has_command npm || lack node
}

install_with_apt() {
    root=""
    if [ "$(id -u)" != 0 ]; then
        sudo -n true 2>/dev/null || return 1
        root="sudo -n"
    fi
    echo "installing$missing" >&2
    $root apt-get update -qq
    # shellcheck disable=SC2086  # a list of names
    $root env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $missing >/dev/null
}

case "$(uname -s)" in
    Darwin) macos ;;
    *) linux ;;
esac
[ -n "$missing" ] || exit 0

if [ "$(uname -s)" = Darwin ]; then
    say="brew install$missing"
elif has_command apt-get; then
    install_with_apt && exit 0
    say="sudo apt-get update && sudo apt-get install$missing"
else
    say="your package manager, for what Debian calls:$missing"
fi
echo "The system lacks something. Please run: $say" >&2
# The demonstration can do without: everything but the PDF works. Without venv nothing does.
case "$want $missing" in
    *python*) exit 1 ;;
    demo*) exit 0 ;;
    *) exit 1 ;;
esac
