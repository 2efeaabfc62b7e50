"""What needs torch, of the extra ``train``, is not collected elsewhere."""

from importlib.util import find_spec

collect_ignore = [] if find_spec("torch") else ["test_dry_run.py", "test_start.py"]
