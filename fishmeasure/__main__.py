"""``python -m fishmeasure``."""

from fishmeasure.cli import main

if __name__ == "__main__":
    main()
