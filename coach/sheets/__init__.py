"""Paper and files out: what is told and drawn, set as HTML, as PDF and as rows for a spreadsheet."""
