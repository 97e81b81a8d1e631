"""House rules: a shop's own limits as data, in a closed vocabulary, judged like any pack.

Nothing in the file is ever executed: words are looked up in `vocabulary`, limits are parsed.
"""

from coordination.rules.house.pack import house_pack
from coordination.rules.house.reading import HouseRules, read_house_rules

__all__ = ["HouseRules", "house_pack", "read_house_rules"]
