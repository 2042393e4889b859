"""Has the views of the study, one file a page."""
