"""What is drawn, on any pen."""
