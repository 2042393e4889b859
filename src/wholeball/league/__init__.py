"""Names the teams, pools and people of a league."""
