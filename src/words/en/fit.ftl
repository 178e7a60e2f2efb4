# SPDX-License-Identifier: MIT
# Whether an album goes together.

## Clearances
tight-by-hand = { $spare } to spare { $way }, and { $sizes } sizes that may each be off by { $off }: it may not fit{ $more ->
        [0] { "" }
        [one] ; one other place is as tight
       *[other] ; { $more } other places are as tight
    }
tight-by-hand-help = cut it with care, or by machine; or give it more room
