"""The caution for reports that are made without a plan, in the very words that every plan carries.

It stands here a second time so that the phone question need not load the whole record; a test holds
the two together.
"""

CAUTION = (
    "This is a planning aid, not a design by a licensed person. Local code and the authority "
    "having jurisdiction govern. A licensed electrician does and confirms all fixed wiring. "
    "Switch off and prove dead before work. Scan before cutting. The makers' listed instructions "
    "come first. "
    "Before use, recline each chair loaded, both ways, watching every cord."
)
