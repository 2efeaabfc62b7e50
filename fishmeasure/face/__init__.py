"""The face for Python: thin views of the records, for notebooks and programs."""
