"""The bill of quantities, priced."""

from foamwright.money.bill import Allowance, Line, Money, bill

__all__ = ["Allowance", "Line", "Money", "bill"]
