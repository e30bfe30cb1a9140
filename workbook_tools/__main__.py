"""Run the command as ``python -m workbook_tools``."""

from workbook_tools.cli import main

if __name__ == "__main__":
    main()
