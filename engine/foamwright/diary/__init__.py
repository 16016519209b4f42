"""The site's diary: what was weighed and made, what it says, and what the next estimate learns of it."""
