#!/bin/sh
# Print the first Python on this machine that is 3.11 or later; say what is wanted where there is none.
for python in ${PYTHON:-} python3.11 python3.12 python3.13 python3.14 python3 python; do
    if "$python" -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null; then
        command -v "$python"
        exit 0
    fi
done
echo "guidec needs Python 3.11 or later; please install it, or name it: make PYTHON=/path/to/python3" >&2
exit 1
