"""Where units may stand: the clearances along one wall, in a strip beside it, in a garage."""
