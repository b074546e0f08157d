"""Published cases, rebuilt, and the open data behind them."""
