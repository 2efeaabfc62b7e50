"""Print the API's description for the type checker of the page.

Which sets of fields are needed (``anyOf`` of nothing but ``required``) is for forms and
clients; the maker of types would take the whole record for unknown.
"""

import json
import sys

from api.app import create_app

document = create_app().openapi()
for schema in document["components"]["schemas"].values():
    if all(set(kind) == {"required"} for kind in schema.get("anyOf", ())):
        schema.pop("anyOf", None)
json.dump(document, sys.stdout)
