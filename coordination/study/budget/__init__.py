"""What a bank holds and how long it lasts, what fills it, and how its batteries share.

`Budgets` in `coordination.study.budgets` asks these modules when a rule or a command first does.
"""
