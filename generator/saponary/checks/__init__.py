"""The rules, one file each; `checks/rules.py` lists them in the order they run."""
