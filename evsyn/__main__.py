"""``python -m evsyn`` equals ``evsyn``."""

from evsyn.cli import main

if __name__ == "__main__":
    main()
