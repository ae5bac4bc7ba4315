"""What the window's tests share."""
