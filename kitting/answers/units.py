"""The unit of goods in an answer."""

from typing import Annotated

from msgspec import Meta

from kitting.models.parts import UNITS

# A text and no enumeration: kept content, such as a release, is read as it was written.
Unit = Annotated[str, Meta(extra_json_schema={"enum": UNITS})]
