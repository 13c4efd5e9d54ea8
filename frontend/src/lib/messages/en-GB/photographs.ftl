# The photographs of a quote's lines.
photograph-title = Photographs
photograph-seen =
    { $n ->
        [0] The customer sees none of them.
       *[other] The customer sees { $n } of { $all }.
    }
photograph-of = Photograph { $n }: { $caption }
photograph-line = Which line is it about?
photograph-choose = Take or choose a photograph
photograph-choose-another = Choose another photograph
photograph-chosen = The photograph that was chosen
photograph-missing = Take or choose a photograph first.
photograph-unreadable = This file cannot be read as a photograph. Choose another.
photograph-caption = Caption
photograph-caption-hint = What one should see, such as “Your rusted bracket”.
photograph-seen_by = Who sees it
photograph-seen_by-customer = The customer, on the link
photograph-seen_by-workshop = Only the workshop
photograph-public = The customer sees it on the link.
photograph-own = Only the workshop sees it.
photograph-add = Add the photograph
photograph-show = Show to the customer
photograph-show-label = Show to the customer: { $caption }
photograph-hide = Hide from the customer
photograph-hide-label = Hide from the customer: { $caption }
