"""The pack `us_premises`: the US installation code for cabins, houses and recreational vehicles."""
