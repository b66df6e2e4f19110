"""What to buy for a job and what to carry away: volumes, clips, and the order list. Lengths are mm."""
