"""Starts the command line for `python -m wholeball`."""

from wholeball.site.main import main

if __name__ == "__main__":
    main()
