"""Holds a report against the schema: report_schema.py SCHEMA REPORT. Prints what is wrong, at most ten things."""
import json
import sys

import jsonschema

with open(sys.argv[1]) as file:
    schema = json.load(file)
with open(sys.argv[2]) as file:
    report = json.load(file)
jsonschema.Draft7Validator.check_schema(schema)
# Each report by itself, so that the fault is named and not only that neither of the two forms fits.
kind = jsonschema.Draft7Validator(
    schema["definitions"]["report"], resolver=jsonschema.RefResolver.from_schema(schema))
wrong = []
for one in report if isinstance(report, list) else [report]:
    wrong += [f"{error.json_path}: {error.message[:200]}" for error in kind.iter_errors(one)]
if not wrong and not jsonschema.Draft7Validator(schema).is_valid(report):
    wrong = ["the whole does not fit the schema"]
print("\n".join(wrong[:10]), end="")
