"""A quote in other clothes: its token, its order as CSV and UBL, its page for print, its QR code."""
