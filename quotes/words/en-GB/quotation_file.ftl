# A sent version as a UBL file, which another firm's program reads.

# $title (text) the vehicle's title, $plate (text) its number plate, or a dash.
quotation-file-vehicle = Vehicle: { $title }, { $plate }
# $skill (text) as the price rules name it.
quotation-file-labour = Labour: { $skill }
# $titles (text) the options that this price holds, with semicolons between them; $n (number) how many.
quotation-file-options =
    { $n ->
        [0] This price holds none of the options.
        [one] This price holds the option { $titles }.
       *[other] This price holds the options { $titles }.
    }
