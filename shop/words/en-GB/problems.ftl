### What a refused request says: a title and what to do. Then what a calculation and the database refuse.

## problem

problem-invalid-title = Something needs correcting
problem-invalid-detail = Nothing was saved. Correct what is marked and send it again.
problem-invalid-read = Correct this and try again.

problem-malformed-title = This could not be read
problem-malformed-detail = The request is not valid JSON and not a valid form. Nothing was changed.

problem-sign-in-first-title = Sign in first
problem-sign-in-first-detail = You are not signed in, or your session has ended. What you had not sent is kept.

problem-wrong-sign-in-title = You are not signed in
problem-wrong-sign-in-detail = E-mail or password is wrong. Check both and sign in again.

problem-shop-exists-title = The workshop is open already
problem-shop-exists-detail = Somebody else has opened it. Sign in, or ask a manager to add you.

problem-no-password-by-mail-title = No mail server is set up
problem-no-password-by-mail-detail = Ask a manager of your workshop for a link: Office, People, your name.

problem-second-factor-needed-title = A code is needed
problem-second-factor-needed-detail = Type the six digits that your authenticator app shows, or one of your recovery codes.

problem-wrong-code-title = You are not signed in
problem-wrong-code-detail = This code is wrong, too old, or was used already. Wait for the next one, or take a recovery code. A manager can switch the second factor off for you.

problem-wrong-pin-title = This PIN is wrong
problem-wrong-pin-detail =
    { $left ->
        [one] One try is left. After that, the password is asked for.
       *[other] { $left } tries are left. After that, the password is asked for.
    }

problem-pin-used-up-title = The password is needed
problem-pin-used-up-detail = The PIN was wrong five times. Sign in with the password: the PIN then works again.

problem-pin-ended-title = This PIN has ended
problem-pin-ended-detail = It is past its last day, or the sign-ins were ended. Sign in with the password and set a new PIN.

problem-pin-needs-password-title = Sign in with the password first
problem-pin-needs-password-detail = You signed in with a PIN. Sign out, sign in with the password, and set the new PIN then.

problem-webhook-needs-password-title = Sign in with the password first
problem-webhook-needs-password-detail = You signed in with a PIN. Sign out, sign in with the password, and add the program then.

problem-calendar-needs-password-title = Sign in with the password first
problem-calendar-needs-password-detail = You signed in with a PIN. Sign out, sign in with the password, and make the address then.

problem-entry-link-needs-password-title = Sign in with the password first
problem-entry-link-needs-password-detail = You signed in with a PIN. Sign out, sign in with the password, and make the link then.

problem-token-needs-password-title = Sign in with the password first
problem-token-needs-password-detail = You signed in with a PIN. Sign out, sign in with the password, and make the key then.

problem-another-person-title = Somebody else is signed in here now
problem-another-person-detail = Another person has signed in on this device. What you had not sent is kept.

problem-second-factor-on-title = The second factor is on already
problem-second-factor-on-detail = To move it to another phone, switch it off first.

problem-second-factor-asked-title = It stays on
problem-second-factor-asked-detail = { $shop } asks for a second factor. A manager can change that under Office, People.

problem-second-factor-of-several-title = This second factor is not yours alone to switch off
problem-second-factor-of-several-detail = The person has worked in another workshop with the same sign-in. Whoever runs the server can switch it off.

problem-second-factor-first-own-title = Switch on your own first
problem-second-factor-first-own-detail = You would shut yourself out: your own sign-in has no second factor yet. You find it on the page of your sign-in.

problem-second-factor-missing-title = The workshop asks for a second factor
problem-second-factor-missing-detail = Switch it on, on the page of your sign-in. Nothing here is lost.

problem-no-mail-server-title = No mail server is set up
problem-no-mail-server-detail = Make a link and hand it over instead.

problem-entry-link-closed-title = This link no longer works
problem-entry-link-closed-detail = It was used, has expired or was withdrawn. If you used it yourself, sign in with the password that you set. If not, ask a manager of the workshop for a new one.

problem-last-manager-title = The workshop needs a manager
problem-last-manager-detail = This is the only manager. Make somebody else a manager first. Nothing was changed.

problem-not-a-member-title = No longer a member
problem-not-a-member-detail = Somebody else has removed this person. Nothing was changed.

problem-password-of-several-workshops-title = This password is not yours alone to replace
problem-password-of-several-workshops-detail = The person has worked in another workshop with the same sign-in, so a link of yours would open that one too. Whoever runs the server can set a new password.

problem-too-many-tries-title = Too many tries
problem-too-many-tries-detail = Wait at most a quarter of an hour, then try again. Whoever runs the server can set a new password.

problem-token-closed-title = This access key does not work
problem-token-closed-detail = It is wrong, it was ended, or its last day is over. Ask a manager for a new one: Office, Other programs.

problem-closed-to-tokens-title = Not with an access key
problem-closed-to-tokens-detail = Only people who sign in may do this.

problem-outside-token-title = This access key does not reach that far
problem-outside-token-detail = It was not made for { $area }. Ask a manager for a key that is.

problem-token-reads-only-title = This access key only reads
problem-token-reads-only-detail = Nothing was changed. Ask a manager for a key that may change something.

problem-too-many-tokens-title = There are too many access keys
problem-too-many-tokens-detail = A workshop has at most { $n }. End one that is no longer needed.

problem-too-many-calendars-title = There are too many calendar addresses
problem-too-many-calendars-detail = A workshop has at most { $n }. End one that is no longer needed.

problem-too-many-webhooks-title = Too many programs get messages
problem-too-many-webhooks-detail = A workshop can have at most { $n }. Remove one that is no longer needed.

problem-webhook-off-title = This program is switched off
problem-webhook-off-detail = Nothing was sent. Switch it on first.

problem-webhook-ended-title = This program gets no more messages
problem-webhook-ended-detail = Somebody has removed it. Load the page again.

problem-message-waits-title = This message is on its way
problem-message-waits-detail = It is tried again by itself. Load the page again.

problem-too-many-requests-title = Too many requests
problem-too-many-requests-detail = This program asks too often. Let it wait as long as the header Retry-After says.

problem-rules-changed-meanwhile-title = Other price rules are in force on that day
problem-rules-changed-meanwhile-detail = Price rules { $number } apply on the day you chose. Open them and make the change there, or choose another day. Nothing was saved.

problem-family-in-rules-title = The price rules name this family
problem-family-in-rules-detail = “{ $family }” would no longer be charged: { $fees }. Change the price rules to “{ $new }” too, or keep the name. Nothing was saved.

problem-hours-changed-meanwhile-title = Somebody else has changed these hours
problem-hours-changed-meanwhile-detail = Load the page again to see theirs, then make your change. Nothing was saved.

problem-hours-begun-title = These hours have begun
problem-hours-begun-detail = Dates were worked out from them. Enter other hours from today on.

problem-rules-unchanged-title = Nothing changes
problem-rules-unchanged-detail = These figures are the same as those in force on that day. Nothing was saved.

problem-operation-in-a-template-title = A template still has this operation
problem-operation-in-a-template-detail = { $operation } is a step of { $templates }. Remove it from the template first, or archive the template. Nothing was changed.

problem-template-with-archived-operations-title = Some of its operations are archived
problem-template-with-archived-operations-detail = Bring these operations back before template { $template }: { $operations }. Nothing was changed.

problem-operation-is-included-title = Another operation includes this one
problem-operation-is-included-detail = { $others } includes { $operation }. Remove it there first. Nothing was changed.

problem-template-unchanged-title = Nothing differs
problem-template-unchanged-detail = These steps are those of the newest version. Nothing was saved.

problem-consumable-archived-title = This consumable is archived
problem-consumable-archived-detail = { $what } is not used any more. Bring it back before you add a pack.
problem-consumable-is-needed-title = A kit still needs this consumable
problem-consumable-is-needed-detail = { $kits } needs { $what }. Remove it from the kit first, with a new version of its list. Nothing was changed.

problem-pack-is-the-last-title = This is the last pack
problem-pack-is-the-last-detail = { $kits } needs { $what }, which would have no pack left. Add another pack first. Nothing was changed.

problem-busy-title = Too many people are signing in
problem-busy-detail = Nothing was changed. Wait a few seconds, then try again.

problem-not-for-this-role-title = Not for your role
problem-not-for-this-role-detail = Ask somebody at the counter or your manager to do this.

problem-not-found-title = Page not found
problem-not-found-detail = There is nothing at this address, or it belongs to another workshop.

problem-method-not-allowed-title = Not possible here
problem-method-not-allowed-detail = This address does not allow that method.

problem-not-acceptable-title = Only JSON here
problem-not-acceptable-detail = This address answers in JSON only.

problem-unsupported-media-type-title = Unsupported content type
problem-unsupported-media-type-detail = Send JSON, or a form with a file where a file is asked for.

problem-too-large-title = Too large
problem-too-large-detail = This is larger than we can accept at once. Send it in smaller pieces.

problem-unknown-parameter-title = Unknown parameter
problem-unknown-parameter-detail = There is no parameter '{ $name }' here. Known: { $known }.

problem-repeated-parameter-title = Parameter given more than once
problem-repeated-parameter-detail = Send '{ $name }' once.

problem-key-required-title = A key is missing
problem-key-required-detail = Send an Idempotency-Key: a new UUID for each action, the same one when the action is sent again.

problem-key-malformed-title = This key is not a UUID
problem-key-malformed-detail = The Idempotency-Key has to be a UUID.

problem-key-reused-title = This key was used for something else
problem-key-reused-detail = Take a new Idempotency-Key for a new action.

problem-file-not-kept-title = This file is no longer kept
problem-file-not-kept-detail = The workshop's rules say for how long imported files are kept, and this one is older. What it became is still there.
problem-answer-not-kept-title = This was already done
problem-answer-not-kept-detail = The request arrived earlier and was carried out then. Its answer is no longer kept. Open the page again to see the result.

problem-version-required-title = Which version did you see?
problem-version-required-detail = Send If-Match with the ETag of the last answer.

problem-job-not-waiting-title = This vehicle does not wait for the bay
problem-job-not-waiting-detail = The job has moved on. Look at it again; if its state is wrong, undo it with the reason.

problem-job-not-in-bay-title = This vehicle is not in the bay
problem-job-not-in-bay-detail = Record the day it came into the bay first; then it can be handed over.

problem-step-taken-off-title = This step is no longer part of the job
problem-step-taken-off-detail = A change that the customer agreed to cancelled it. Nothing was recorded.

problem-job-state-moved-title = The job is no longer in this state
problem-job-state-moved-detail = Somebody changed it in the meantime. Look at the job again.

problem-changed-meanwhile-title = Somebody changed this in the meantime
problem-changed-meanwhile-detail = Look at it again, then make your change.

problem-cannot-compute-title = This cannot be worked out
problem-cannot-compute-detail = { $why }

problem-import-not-yet-title = This file cannot be imported yet
problem-import-not-yet-detail =
    { $n ->
        [one] Nothing was imported: { $n } problem to fix.
       *[other] Nothing was imported: { $n } problems to fix.
    }

problem-import-no-room-title = Too many files wait to be imported
problem-import-no-room-detail = { $n } files wait to be imported, and a shop keeps at most 40 of them with { $megabytes } MB in all. Import or remove one, then send this file again. A file that nobody imports is removed after { $days } days.

problem-import-changed-by-another-title = This file has changed
problem-import-changed-by-another-detail = Somebody else has just corrected it. Look at it again, then repeat your change.

problem-import-too-many-steps-title = This file takes no more corrections
problem-import-too-many-steps-detail = A file takes at most { $n } corrections. Correct the rest in the spreadsheet.

problem-import-taken-already-title = This file was imported
problem-import-taken-already-detail = It has already been imported. Read it again to import it again.

problem-import-unread-title = This file cannot be imported yet
problem-import-unread-detail = It has not been read yet. Wait until it has, then import it.

problem-import-task-runs-title = Work on this file has not ended
problem-import-task-runs-detail = It is being read or imported. Wait until that has ended, then repeat your change.

problem-refused-title = This was refused
problem-refused-detail = { $why }

problem-disk-full-title = The server's disk is full
problem-disk-full-detail = Nothing was saved. What was counted stays on the phone. Tell whoever looks after the server to free some space.

problem-unforeseen-title = Something went wrong on our side
problem-unforeseen-detail = Nothing was changed as far as we know. Check before you try again. If it happens again, tell your administrator what you did.

## refused

refused-other = This conflicts with what is already saved. Check it again.
refused-row_of_this_shop = This does not belong to this workshop.
refused-vehicle_vin_is_once_in_a_shop = There is already a vehicle with this VIN. Find it by the last six characters of the VIN.
refused-member_is_once_in_a_shop = This person is already a member of the workshop.
refused-rule_set_in_use_never_changes = These rules are in use and can no longer change. Import a new set.
refused-labour_template_in_use_never_changes = This template is in use and can no longer change. Import its next version.

## calc

calc-other = It cannot be worked out from { $culprit }.
calc-unknown_operation = Operation { $culprit } is not known. Import it with the labour templates, or remove it.
calc-unknown_rate = There is no labour rate for { $culprit }. Add it to the price rules.
calc-negative_hours = The hours of { $culprit } are below zero. Correct them.
calc-includes_loop = Operations include one another in a loop: { $culprit }. Remove one of the pairs.
calc-bad_factor = The factor { $culprit } is below 1. Correct it in the rules.
calc-bad_pack = The pack { $culprit } has no size or a price below zero. Correct it.
calc-no_packs = There is no pack to choose from for { $culprit }. Import one with the consumables.
calc-target_out_of_range = The coolant target { $culprit } is outside 0.30 to 0.65. Correct it in the rules.
calc-drained_out_of_range = The drained litres { $culprit } do not fit the capacity.
calc-premix_out_of_range = The premix concentration { $culprit } has to be between 0 and 1.
calc-residual_out_of_range = The concentration { $culprit } has to be between 0 and 1.
calc-bad_quantity = The quantity of { $culprit } is not above zero. Correct it.
calc-kit_loop = The kit contains itself: { $culprit }. Correct the contents.
calc-supersession_loop = Parts replace one another in a loop: { $culprit }. Correct one of them.
calc-tax_loop = Taxes are on top of one another in a loop: { $culprit }. Correct the rules.
calc-duplicate_tax = The tax { $culprit } is there twice. Correct the rules.
calc-unknown_tax = There is no tax { $culprit }. Correct the rules.
calc-bad_rate = The taxes on { $culprit } would take the whole price. Correct the rules.
calc-bad_markup = The price bands do not work: { $culprit }. Correct the rules.
calc-loop = Operations wait for one another in a loop: { $culprit }. Remove one of these waits from the labour templates.
calc-duplicate_operation = Operation { $culprit } is there twice. Remove one.
calc-never_open = The calendar has no opening hours, in { $culprit }. Import them with the price rules.
calc-too_far = No date: it lies more than { $culprit } years ahead. Look at the hours of the work.
calc-bad_efficiency = The efficiency { $culprit } has to be above zero. Correct it in the rules.
calc-bad_node = { $culprit } in the kit is an empty group, or a part with contents. Correct the contents.
calc-unknown_node = The kit names { $culprit }, which is not there. Correct the contents.
calc-sample_too_small = A sample of { $culprit } pieces is too small. Weigh at least 10.
calc-bad_mass = The scale cannot have shown this: { $culprit }. Weigh again.
calc-no_totals = There is no price range without { $culprit }. Add what the quote needs to be priced.
calc-negative_total = A price range cannot have a figure below zero: { $culprit }. Correct it.
calc-unknown_charge = There is no way { $culprit } of charging a consumable. Use whole packs, as used, or shop supplies.
calc-bad_share = The share { $culprit } has to lie between 0 and 1. Correct it in the rules.
calc-bad_discount = The discount has to be either a percentage or an amount, and not below zero: { $culprit }. Correct it.
calc-discount_too_large = The discount is larger than what it applies to: { $culprit }. Lower it.
calc-unknown_rule = There is no rule { $culprit } for extra work. Choose another in the rules.
calc-bad_rule = The rule does not work: { $culprit }. Correct it in the rules.
calc-negative_amount = An amount cannot be below zero: { $culprit }. Correct it.
calc-duplicate_lot = The lot { $culprit } is there twice. Remove one.
