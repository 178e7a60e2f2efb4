# SPDX-License-Identifier: MIT
# What lies in the drawer.

form-drawer = a group of stocks by their names, with the sheets of each that lie there
drawer-help = write { "{" } "card": [{ "{" } "sheet": "A4", "count": 12 { "}" }] { "}" }; what is empty is { "{" } { "}" }
drawer-too-many = with this one { $count } sheets of the same size lie there, and { $most } are the most that are taken
drawer-too-many-help = write how many there are in all, once
drawer-no-stock = nothing of { $name } in the drawer is used: there is no such stock here
drawer-no-stock-help = that is fine where another album takes it
drawer-several-stocks = nothing of { $name } in the drawer is used: it could be { $stocks }
drawer-several-stocks-help = call it in the drawer by one of these names
