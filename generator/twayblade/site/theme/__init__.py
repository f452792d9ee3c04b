"""The theme: templates, look and icon of the site."""
