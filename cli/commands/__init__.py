"""One file a command: ``train``, ``reach``, ``divide``, ``audit``, ``lathe``, ``head``."""
