"""One request for each operation, as curl, Python and TypeScript write it, and what it is answered.

Decisions:

* A sample asks the demonstration catalogue, so it runs on a service that was just set up; the answers and the problems
  beside it are those of that catalogue, recorded by ``python -m tests.contract.samples`` and replayed by a test.
* The programs are written from one request each, so the three languages cannot come apart. TypeScript is plain
  ``fetch`` with the types of the description: it runs in a browser and in Node, and needs no package to run.
* Whole answers stand on a page of their own for each operation: all of them on one page would be a megabyte.
"""
