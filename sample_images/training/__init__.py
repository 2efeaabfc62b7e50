"""How the learned outline finder was trained; needs the extra ``train``.

Nothing outside this package imports it, and it alone imports torch.
"""
