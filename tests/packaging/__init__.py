"""What a user installs: the wheel, the locks and the recipe of the image."""
