"""The dry run needs torch, of the extra ``train``; elsewhere it is not collected."""

from importlib.util import find_spec

collect_ignore = [] if find_spec("torch") else ["test_dry_run.py"]
