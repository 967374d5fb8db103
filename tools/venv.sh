#!/bin/sh
# A folder and lists of pinned packages -> a virtual environment that holds them, and this project, editable.
# Of the second list, where there is one, just the packages themselves and nothing they ask for.
set -eu
venv=$1
pins=$2
[ -x "$venv/bin/python" ] || "$(sh "$(dirname "$0")/python.sh")" -m venv "$venv"
"$venv/bin/python" -m pip install --quiet --disable-pip-version-check -r "$pins"
[ -z "${3:-}" ] || "$venv/bin/python" -m pip install --quiet --disable-pip-version-check --no-deps -r "$3"
"$venv/bin/python" -m pip install --quiet --disable-pip-version-check --no-deps --editable .
