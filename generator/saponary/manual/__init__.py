"""The manual: what every key means, topics, and what a finding is about; for the terminal and as a site."""
