"""`python -m kbtools`."""

from kbtools.cli import main

if __name__ == "__main__":
    main()
