"""The rule author's kit: what several packs need beside the door, one topic a module.

A pack may import any of these modules; none of them knows a standard, judges or has a limit.
"""
