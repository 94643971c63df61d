"""Executes a notebook with nbclient, as other tools do: execute.py NOTEBOOK KERNEL OUT [allow_errors]"""
import sys
from pathlib import Path

import nbformat
from nbclient import NotebookClient

source, kernel, out = sys.argv[1:4]
notebook = nbformat.read(source, as_version=4)
nbformat.validate(notebook)
client = NotebookClient(
    notebook,
    kernel_name=kernel,
    timeout=300,
    record_timing=False,
    allow_errors="allow_errors" in sys.argv[4:],
    resources={"metadata": {"path": str(Path(source).parent)}},
)
client.execute()
nbformat.validate(notebook)
nbformat.write(notebook, out)
