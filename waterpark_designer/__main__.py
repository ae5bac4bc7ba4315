"""The program, started as `python -m waterpark_designer`."""

import sys

from waterpark_designer.app import main

if __name__ == "__main__":
    sys.exit(main())
