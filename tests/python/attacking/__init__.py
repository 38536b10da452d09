"""Attacks on every door of the package; `attacks.py` makes them."""
