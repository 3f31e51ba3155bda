"""A job: which physics applies in what order, the ledger of findings, the checks, the rows of bleeding."""

from firstfill.commissioning.bleed_stage import BleedStage
from firstfill.commissioning.computing import Commissioning, commission

__all__ = ["BleedStage", "Commissioning", "commission"]
