#!/bin/sh
# A folder and a list of pinned packages -> a virtual environment that holds them, and this project, editable.
set -eu
venv=$1
pins=$2
[ -x "$venv/bin/python" ] || "$(sh "$(dirname "$0")/python.sh")" -m venv "$venv"
"$venv/bin/python" -m pip install --quiet --disable-pip-version-check -r "$pins"
"$venv/bin/python" -m pip install --quiet --disable-pip-version-check --no-deps --editable .
