# SPDX-License-Identifier: MIT
# What the commands say of arguments, files and folders.

## Without arguments
first-steps =
    Hingeleaf works out every sheet, cut and score of a folded-card photo album. Three things to try:

    {"  "}hingeleaf table                            a page in your browser, with albums to play with
    {"  "}hingeleaf new my-album.json                a small album file to start from
    {"  "}hingeleaf kit my-album.json --out kit      everything it needs: cutting files, cutting list, guide

    hingeleaf --help lists all commands, hingeleaf kit --help the options of one.

## Arguments
bad-colours = --colours can't be read at { $colour }
bad-colours-help = write --colours cut=#000000,score=#E69F00,draw=#CC79A7
bad-score = --score can't be { $score }
bad-score-help = write --score line, or the length of a cut and of a tie: --score 2,1
machine-out-of-range = { $option } must lie between 0 and { $most }
of-option = { $option }: { $what }
no-such-stock = there is no stock { $name }
not-handed-over = card can't be handed over as { $word }
option-meant = did you mean { $value }?
rounded-out-of-range = --rounded must lie between { $least } and { $most }
rounded-out-of-range-help = give the step of your ruler: --rounded 1/16in or --rounded 1mm
sheet-of-no-stock = --sheet: there is no stock { $name }
stocks-there-are = the album has: { $names }
too-many-steps = steps of { $step } within { $within } either way can't be tried: there can be at most { $most } steps
too-many-steps-help = make --step larger or --within smaller; neither can be less than 0
unknown-format = this build does not write { $format }
unknown-format-help = this build writes { $formats }
unknown-format-help-left-out = it was left out when this program was built; the usual program has it. This build writes { $formats }
unknown-format-help-meant = did you mean { $near }? This build writes { $formats }
wrong-arguments = { $words }
wrong-arguments-help = see hingeleaf --help
arguments-missing = more must be typed: { $names }
no-such-command = there is no command { $name }
no-such-command-help = hingeleaf --help lists all commands
no-such-option = there is no option { $option } here
one-word-too-many = { $word } is one word too many here
one-word-too-many-help = type { $usage }; a name with spaces in it stands in quotes
option-cant-be = { $option } can't be { $value }
option-needs-value = { $option } needs a value behind it
option-needs-value-help = type { $typed }, with what you want in place of the capitals
option-twice = { $option } can be said only once
options-clash = { $option } and { $other } do not go together
type-help = type { $usage }; with --help behind the command, all options are listed
bare-fraction = a bare number is in mm here, and { $found } looks like inches
bare-fraction-help = write { $inches } or { $mm }
paper-margin-help = a printer leaves blank from 0 to { $most } along an edge
whole-number-between-help = write a whole number from { $least } to { $most }

## Files
format-raised = the copy says that its format is { $format }; the file says { $found }, and is left as it is
can-not-help = check the folder, its permissions and the space that is left
can-not-read = can't read { $path }: { $error }
can-not-write = can't write { $path }: { $error }
file-is-folder = { $file } is a folder, not a file
file-is-folder-help = name the file in it
is-there-already = { $name } is there already
no-own-cutter-file-help = check its name: a cutter file is looked for in the folder of the file that names it
no-cutter-file-help = check its name; the options --kerf, --margin and --gap do without a file
no-picture-file-help = check its name: a picture is looked for in the folder of the file that names it; without it the stock is shown in its colour
no-drawing-help = check its name: a drawing is looked for in the folder of the file that names it
kinds-folder-closed = the folder { $folder } can't be looked into: { $error }
kinds-folder-empty = in { $folder } there is no kind file
kinds-folder-full = in { $folder } there are more than { $most } files, too many for a folder of kinds
kinds-folder-help = a folder of kinds holds kind files that end in .json, and nothing else that does
no-kind-file-help = check its name: kind files are looked for in the folder of the file that names them
no-file = there is no file { $file }
no-file-for-the-page-help = check its name; hingeleaf table without a file has examples to start from
no-file-help = check its name; hingeleaf new FILE writes one to start from
nothing-is-overwritten = give another name; nothing is overwritten
offcuts-no-folder = there is no folder { $folder } for the offcuts
offcuts-no-folder-help = make it first, or name a file in a folder that is there
offcuts-over-kit = { $file } is a file of the kit itself
offcuts-over-kit-help = give the offcuts another name
proof-differs = { $problem }; nothing was written
proof-differs-help = this is a fault of the program: please report it with your album file

## Folders
folder-busy = another run is writing { $name }
folder-busy-help = wait until it is done, or give another folder
folder-exists-help = give another folder, or add --replace if it holds an earlier { $what }
folder-is-dead-link = { $name } is a link to nothing
folder-is-dead-link-help = give another name, or take the link away
folder-is-file = { $name } is a file, not a folder
folder-of-earlier-version = { $name } holds a { $what } of an earlier version, which does not say which of the files there are its own
folder-of-earlier-version-help = give another folder, or take that one away yourself
folder-of-something-else = { $name } holds something other than a { $what }: it is left alone
folder-taken = { $name } holds files that are yours, or were changed since they were written: { $files }
folder-taken-help = the new { $what } has files of these names: give yours other names, or give another folder
folder-without-name = { $name } has no name that a folder can take
folder-without-name-help = name a new folder: --out { $what }
give-another-folder = give another folder
give-another-name = give another name

## The page
no-port = can't open a port on this machine: { $error }
no-random-word = can't get a random word from the system: { $error }
page-failed-help = hingeleaf kit does the same work from the command line
page-not-served = the page can't be served any more: { $error }
port-taken = another program uses port { $port }
port-taken-help = end that one, or give another --port

## The drawer
no-drawer-file-help = check its name: a drawer file is looked for in the folder of the file that names it; an empty one is { "{" } "format": "hingeleaf-drawer/1", "stocks": { "{" } { "}" } { "}" }
no-drawer-named = --update-drawer wants a drawer, and no file names one
no-drawer-named-help = write "drawer": "drawer.json" into the album or batch file, or leave the option out
drawer-in-kit = the drawer's file { $file } lies in the folder of the kit, which is written anew
drawer-in-kit-help = put it beside that folder
drawer-changed = the drawer's file { $file } was changed while the kit was worked out; nothing was written
drawer-changed-help = run it again: somebody else may have taken from the drawer

kind-in-code = no kind file states { $name }: its sizes are worked out in a way that a kind file can't say
kind-source-help = these built-in kinds have a kind file: { $names }
kind-unknown = there is no kind { $name }

## The test piece
coupon-sheet-bed = the sheet does not go into the machine
coupon-sheet-small = the test piece takes a sheet of at least { $width } x { $height }
coupon-sheet-small-help = give another sheet with --sheet: A4, letter, "300x300mm"
coupon-wants = say where the test piece goes, or what was read off one
coupon-wants-help = --out DIR writes one; --measured FILE --save FILE makes a cutter file of what was read
fold-d-mountain = strip D as a mountain
fold-d-valley = strip D as a valley
fold-e-mountain = strip E as a mountain
fold-e-valley = strip E as a valley
folds-across-help = only folds across the grain crack: in the album file give the card its "grain", so that hinges and covers are cut along it, and turn other parts by "grain": "spine"; or take thinner card
folds-clean = score { $number } is the least that folds clean as a valley and as a mountain on both strips: { $score }
folds-liked = you like score { $liked } best, and folds are clean from { $number } on
folds-liked-help = your choice stays; leave best_score null to take the one that folds clean
folds-none-clean = no score folds clean on { $cases }, so the score stays as the cutter file has it
folds-none-clean-help = press the crease in with a bone folder before you fold, let the tool go over scores twice ("passes") or press harder, or take thinner card; then cut and fold a new piece
folds-some-clean = score { $number } is the least that folds clean where it was tried: { $score }; nothing was read of { $cases }
folds-some-clean-help = fold these, too, before you trust it: card cracks first across its grain and on a mountain's outside
grain-not-told = strips K and L hang { $k } and { $l }, too much alike to tell which way the grain runs
grain-not-told-help = let more of them stick out, or make the test in thinner card; some card has next to no grain
grain-runs-across = the grain runs from left to right as the sheet lay on the machine: strip K hangs { $k }, strip L { $l }
grain-runs-across-help = in the album file say so of the card: "grain": "width"; the scores of strip E run with it, those of D across it
grain-runs-up = the grain runs from bottom to top as the sheet lay on the machine: strip L hangs { $l }, strip K { $k }
grain-runs-up-help = in the album file say so of the card: "grain": "height"; the scores of strip D run with it, those of E across it
kerf-impossible = by these readings the tool removes { $kerf }, which can't be
kerf-measured = the tool removes { $kerf }, give or take { $off }
kerf-unknown = the strips alone, or the slot alone, do not tell what the tool removes
kerf-unknown-help = measure the other, too, or the scale across
nick-impossible = a piece was held where the tool stayed off for { $off }, but it removes { $kerf }: of such a nick nothing is left, so no nicks are saved
nick-impossible-help = look again which piece of H was the first to hold, and measure the strips and the slot again
nick-wants-kerf = how long a nick is on the part hangs on what the tool removes, so no nicks are saved either
nick-wants-kerf-help = measure again what is asked for above; which piece was held need not be looked at again
readings-disagree = the row of strips tells of { $row } that the tool removes, the slot of { $slot }: one of the readings is wrong, so no kerf is saved
readings-disagree-help = measure the strips, the slot and the scale across again, from inner edge to inner edge, pushing the strips together
score-is-a-line = one light stroke
score-is-cuts = cuts of { $dash }, { $gap } apart
scale-across = from left to right
scale-up = from bottom to top
scale-off = { $way } 100 mm come out as { $read }, give or take { $off }: { $share }
scale-off-help = set this right in the machine or its program; nothing here is changed by it
scale-right = { $way } 100 mm come out as { $read }, give or take { $off }: as they should
nothing-measured = no reading tells of a setting of the machine, so no cutter file is written
nothing-measured-help = put what you read off the piece in place of null; the scale and the way the grain runs are no settings
no-measured-file-help = coupon --out DIR writes a test piece with an empty measured.json
