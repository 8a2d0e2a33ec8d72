"""A quote in other forms: its token, its order as CSV and UBL, its page for print, its QR code.

Decisions:

* 410 means that the revision or the price list is no longer kept, or that these or the job are no longer readable.
  Everything unsigned, foreign or malformed is the same 404.
* The ETag of an opened quote is a digest of form, engine and address with token, so 304 needs no calculation.
  ``Cache-Control: private, no-cache``, because a quote may hold a customer's own prices.
* What has no price is told first in every form, and where a sum is shown alone, as the totals leave it out.
* UBL needs ``order.issued`` and at least one line. Without them the next accepted form is given, or a 406 that says why
  (``quote-not-issued``, ``nothing-ordered``).
* The style and the QR code of the print page stand in it, so that it prints the same saved, or had straight from a job.
* CSV repeats what holds for the whole quote in every row, and has one row when nothing is ordered. Text that a
  spreadsheet would run as a formula gets an apostrophe before it.
* The QR code holds the page's address, from ``GAUGERAKE_ADDRESS`` or else the request's own host, with the token behind
  ``#quote=``, so that it never reaches a log.
"""
