"""The panels beside the wall: each shows the job as it is and edits it; none keeps a truth of its own."""
