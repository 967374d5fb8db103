"""`python -m guidec`."""

import sys

from guidec.cli import main

sys.exit(main())
