"""What published sentences claim: word lists by language, and the reading of a text against them."""
