### The order of work of a template: what a version changed.

## template

template-nothing = nothing
template-change-added = { $operation } was added
template-change-removed = { $operation } was removed
template-change-hours = { $operation }, hours: { $before } → { $after }
template-change-stage = { $operation }, stage: { $before } → { $after }
template-change-after = { $operation } waits for: { $before } → { $after }
template-change-when = { $operation }, vehicles: { $before } → { $after }
template-change-order = { $operation } follows: { $before } → { $after }
