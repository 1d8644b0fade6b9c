"""The metal account: what is believed of every zone, looking back to the stock and forward to the tool."""
