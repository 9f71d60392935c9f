"""The pages of the seeding room and of the season's intake."""
