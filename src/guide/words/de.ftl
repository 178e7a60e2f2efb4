# SPDX-License-Identifier: MIT
# Der Leitfaden auf Deutsch. Die Schlüssel sind in jeder Sprache gleich.
# Anweisungen stehen im Infinitiv; Teile heißen nach ihrem Buchstaben, ohne Artikel, damit kein Fall gebeugt wird.
# Höchstens 22 Wörter je Satz.

## Die Seite
page-contents = Inhalt
page-caution = Achtung
page-maker = Entworfen von
page-done = Schritte erledigt
page-notes = Hinweise zum Entwurf
page-again = Alle Häkchen löschen
page-book-title = Das Handbuch
page-book-about = Von der Idee zum Bausatz, den andere zusammensetzen: wie das Programm benutzt wird, was es kennt, was seine Dateien sagen, was seine Antworten bedeuten.
page-book-offline = Es braucht kein Netz. Die Dateien, von denen es spricht, liegen in seinem Ordner unter „files“.
page-book-english = Vieles davon gibt es bisher nur auf Englisch.
page-book-contents = Inhalt
page-book-search = Suchen
page-book-search-hint = ein Wort oder zwei
page-book-nothing = Diese Wörter stehen nirgends.
page-book-first = Der erste Bausatz
page-book-album = Ein eigenes Album
page-book-parts = Seiten, Rücken, Einbände, Einlagen
page-book-kinds = Eigene Arten
page-book-machine = Die Maschine
page-book-files = Was in den Dateien steht
page-book-messages = Wenn etwas nicht stimmt
page-book-commands = Alle Befehle
page-book-mind = Vorsicht
page-book-field = Feld
page-book-says = Was es sagt
page-book-takes = Was darin stehen kann
page-book-typed = Getippt
page-book-does = Was es tut
page-book-pages = Seiten
page-book-spines = Rücken
page-book-covers = Einbände
page-book-inserts = Einlagen
page-book-files-must = Fett gesetzte Felder müssen da sein.
page-book-files-name = NAME steht für einen eigenen Namen, […] für jeden Eintrag einer Liste.
page-book-files-kinds = Was eine Seite, ein Rücken, Einband oder eine Einlage sonst sagt, hängt von der Art ab:
page-book-files-own = Dateien mit eigenen Arten haben ihre eigene Tabelle:
page-book-answer = Die Antwort:
page-book-answer-says = Eine Antwort sagt, was falsch ist und wo (Datei, Zeile, Stelle); sie zeigt die Zeile und sagt, was zu tun ist.
page-book-answer-way = Dahinter steht der Weg zum Feld: pages[1].pocket ist die Tasche der zweiten Seite, denn gezählt wird dort ab 0.
page-book-answer-grave = „stop“ muss in Ordnung gebracht werden, bei „warn“ kann etwas enttäuschen, eine „note“ ist gut zu wissen.
page-book-answer-all = Alles Falsche wird auf einmal gesagt. Das Erste beheben und neu versuchen: Oft ist anderes damit erledigt.
page-book-answer-of = Jede dieser Dateien wurde dem Befehl kit gegeben. Geschrieben wurde nichts.

## Zahlen
number-decimal = ,
unit-inch = Zoll
unit-foot = Fuß
unit-hour = h

## Verbinden
list-more = { $these }, { $this }
list-last = { $these } und { $this }
list-or = { $these } oder { $this }
page-one = Blatt { $pages }
page-range = { $from } bis { $to }
page-several = Blätter { $pages }
part-named = { $mark } ({ $kind })
part-times = { $n } × { $part }
these-parts = { $parts }.
panel-of = { $panel } von { $part }
panels-of = { $panels } von { $part }
panel-number = { $panel } Nr. { $n }
own-panel = { $panel } desselben Teils
own-face = die { $face } desselben Teils
own-other = die übrigen Felder desselben Teils
place-on = { $what } auf { $on }
face-front = Vorderseite
face-back = Rückseite

## Was man bekommt
given-heading = Das entsteht
given-album = Ein Fotoalbum aus { $n_is ->
    [one] einem Blatt,
   *[other] { $n } Blättern,
} jedes { $width } breit und { $height } hoch.
given-page = { $pages }: { $kind }
given-spine = Rücken: { $spine }
given-cover = Einband: { $cover }
given-insert = Für die Taschen: { $n } × { $insert }
given-insert-loose = Lose dabei: { $n } × { $insert }
given-thick = Geschlossen sind die Blätter zusammen etwa { $thick } dick.
given-bound-left = Von vorn gesehen links gebunden.
given-bound-right = Von vorn gesehen rechts gebunden.
given-bound-top = Oben gebunden. Gearbeitet wird mit dem Rücken links, wie die Bilder ihn zeigen; fertig wird das Album gedreht: was links war, ist dann oben.
given-picture-closed = Das fertige Album, geschlossen, der Rücken links.
given-picture-fan = Das fertige Album, am Fuß aufgestellt und wie ein Fächer geöffnet.
given-picture-open = Das fertige Album, aufgeschlagen.

## Was man braucht
need-heading = Alles bereitlegen
need-words = Vor dem Beginn alles auslegen.
need-words-shop = Für alles einkaufen, was gemacht wird. Ein Zehntel der Bögen und des Klebebands ist Reserve.
need-heading-shop = Einkaufen und bereitlegen
need-caption = Karton und Papier zum Einkaufen
need-caption-given = Karton und Papier im Bausatz
need-head-stock = Material
need-head-sheet = Bogen
need-head-weight = Gewicht
need-head-count = Zum Schneiden
need-head-buy = Kaufen, mit Reserve
need-head-price = Kosten je Bausatz
need-sheet = { $name }: { $width } × { $height }
need-stick = Klebeband und Leim
need-stick-shop = Klebeband und Leim für alle Bausätze, wo sie beigelegt werden
need-drawer = Aus der Schublade nehmen
need-drawer-take = { $stock }, { $width } × { $height }: { $n } von { $lie } nehmen. Es bleiben: { $left }.
need-tape = Doppelseitiges Klebeband, { $width } breit: { $length }, ein Zehntel davon Reserve.
need-ready-cover = { $n_is ->
    [one] Eine fertige Einbanddecke { $mark }
   *[other] { $n } fertige Einbanddecken { $mark }
}: aufgeklappt { $width } × { $height }.
need-glue = Weißleim für Karton, der sich einige Minuten lang noch schieben lässt.
need-ribbon = Band, { $width } breit: { $n } Stück zu { $length }.
need-thread = Kräftiger Heftfaden: { $length }.
need-corners = Fotoecken zum Aufkleben: { $n }.
need-tools = Werkzeug
need-time = Mit etwas Übung dauert ein Bausatz etwa { $time }.
need-cost = Die Bögen für einen Bausatz kosten { $cost }.
need-weight = Karton und Papier eines Bausatzes wiegen { $weight }.
tool-trimmer = Schneidemaschine mit Anschlag
tool-pencil = Weicher Bleistift, für die Buchstaben auf den Rückseiten
tool-rule = Stahllineal
tool-knife = Bastelmesser und Schneidematte, für Ecken und Ausschnitte
tool-scorer = Rillbrett mit Anschlag, oder Lineal und stumpfe Spitze
tool-folder = Falzbein
tool-punch = Lochzange
tool-compass = Zirkel, für runde Ausschnitte
tool-awl = Ahle, für enge Löcher
tool-needle = Nadel für den Faden
tool-brush = Flachpinsel für den Leim
tool-paper = Makulatur, um den Leim von trockenen Flächen fernzuhalten
tool-weight = Ein flaches Gewicht, etwa einige Bücher

## Vorsicht
caution-rules = Anleitung der Maschine und örtliche Vorschriften gehen vor. Ebenso, wer dafür zugelassen oder ausgebildet ist.
caution-blade = Am Stahllineal in leichten Zügen schneiden, die haltende Hand auf dem Lineal, außerhalb der Klingenbahn.
caution-blade-cap = Das Messer beim Ablegen immer mit der Kappe verschließen.
caution-trimmer = Schutz der Schneidemaschine unten lassen, die Hand von der Schnittlinie fernhalten. Nach der Arbeit den Hebel verriegeln.
caution-machine = Hände, Haare und Ärmel vom fahrenden Schlitten einer Maschine fernhalten.
caution-laser = Einen Laser nie unbeaufsichtigt lassen. Den Rauch absaugen. Einen Feuerlöscher bereithalten.
caution-laser-light = Den Laser nur mit geschlossener Haube betreiben, oder mit einer Schutzbrille für sein Licht.
caution-laser-vinyl = PVC, Vinyl, beschichtete oder unbekannte Kunststoffe nie mit dem Laser schneiden.
caution-glue = Beim Leimen den Raum lüften.
caution-glue-label = Den Aufdruck jedes Leims und Klebebands lesen und befolgen.
caution-glue-photo = Feuchten Leim und Klebeband von Fotos fernhalten.
caution-photo = Fotos nur in Taschen oder Ecken stecken. Nie mit Leim oder Klebeband befestigen.
caution-photo-paper = Bei Fotos ligninfreies Papier ohne PVC verwenden.
caution-first = Anleitung der Maschine, örtliche Vorschriften und zugelassene oder erlernte Praxis gehen diesem Leitfaden vor.
caution-keep = Messer, Maschinen und Leim von kleinen Kindern fernhalten.
mind-heading = Was vorgeht

## Auslegen
bag-heading = Die Teile auslegen
bag-words = Die Teile sind geschnitten. Jedes nach seinem Maß suchen, dann zählen.
bag-words-scored = Die Teile sind geschnitten und gerillt. Jedes nach seinem Maß suchen, dann zählen.
bag-words-mixed = Die Teile sind geschnitten, einige auch gerillt. Jedes nach seinem Maß suchen, dann zählen.
bag-words-letters = Auf die Rückseite jedes Teils mit Bleistift seinen Buchstaben schreiben: So heißt es in den Schritten.
bag-front = Vorderseite ist bei gerillten Teilen die Seite mit den Rillen, bei Papier mit Muster die mit dem Muster.
bag-missing = Vor dem Beginn nach fehlenden Teilen fragen.
cut-head-there = Da

## Schneiden
cut-heading = Die Teile schneiden
cut-words = Gleich nach dem Schnitt den Buchstaben mit Bleistift auf die Rückseite des Teils schreiben.
cut-caption = Teile aus { $stock }
cut-head-mark = Buchst.
cut-head-piece = Teil
cut-head-name = Teil
cut-head-count = Anzahl
cut-head-size = Breite × Höhe
cut-head-size-mm = In Millimetern
cut-head-size-in = In Zoll
cut-head-scores = Rillen
cut-head-lies = Laufrichtung, Muster
cut-head-back = Auf die Rückseite
cut-piece = { $kind }, { $id }
cut-size = { $width } × { $height }
cut-size-long = { $width } × { $height } ▸
cut-back = { $mark }: { $uses }
cut-back-alike = { $mark }: alle gleich
card-stock = { $stock } · { $pieces }
card-kind = { $kind }: { $pieces }.
card-kind-lies = { $kind }, { $lies }: { $pieces }.
card-piece = { $mark } { $size }
card-sheets = { $what } { $n }
card-sheets-weight = { $n }
card-sheets-count = { $n } zum Schneiden
card-sheets-buy = { $n } zum Kaufen, mit Reserve
card-sheets-price = { $n } je Bausatz
card-at = { $at }
card-at-part = { $at } zum Teil
card-between = { $at } ◇
card-between-part = { $at } ◇ zum Teil
card-folds = { $at } { $fold }
card-scored = { $piece } ({ $scores })
lies-any = beliebig
lies-grain = ↕ Laufrichtung aufrecht
lies-pattern = ↑ Muster aufrecht
lies-sideways = ← Oberkante des Musters links
scores-left = von links { $scores }
scores-top = von oben { $scores }
scores-slanted = schräg, siehe Bild
scores-none = keine
score-groove = { $at } { $fold }
score-groove-part = { $at } { $fold } zum Teil
score-between = { $at } ◇ { $fold }
score-between-part = { $at } ◇ { $fold } zum Teil
fold-valley = Talfalz
fold-mountain = Bergfalz
fold-both = Wechselfalz
cut-note-edges = Rillen von der linken oder oberen Kante aus messen, die Vorderseite des Teils nach oben.
cut-note-between = ◇ liegt zwischen den Nuten üblicher Rillbretter (⅛ Zoll, 1/16 Zoll, 5 mm). Anzeichnen und am Lineal rillen.
cut-note-long = ▸ ist länger, als eine Schneidemaschine von { $trimmer } schneidet. Eine längere nehmen, oder Messer und Lineal.
cut-note-shaped = Von Hand jedes Teil zuerst als volles Rechteck schneiden. Ecken und Ausschnitte kommen später.
cut-note-ruler = Einige Maße liegen zwischen Sechzehntelzoll. Hat das Lineal keine feinere Teilung, um einen gerundeten Bausatz bitten.
cut-no-sheets = Jedes Teil nach Maß schneiden, so oft, wie es in der Liste steht.
ways-trimmer = Auf der Schneidemaschine: { $stocks }.
ways-machine = Nach den Dateien: { $stocks }.
machine-words = Jede Datei unten in das Schneideprogramm laden und vor dem ersten Schnitt die Bogengröße vergleichen.
machine-back = Zuerst die Rückseite: { $lay } und leicht rillen lassen. Die Vorderseite wird an denselben Linien gerillt.
machine-back-names = Zuerst die Rückseite: { $lay } und die Wörter zeichnen lassen.
machine-back-both = Zuerst die Rückseite: { $lay }, die Wörter zeichnen und leicht rillen lassen. Die Vorderseite wird an denselben Linien gerillt.
machine-back-lay = Bogen mit der Vorderseite nach unten einlegen, { $file } laden
machine-back-lay-bed = Bogen mit der Vorderseite nach unten auf jeden seiner Plätze auf dem Tisch legen, { $files } laden
machine-prick = Jede Passermarke der bedruckten Vorderseite mit einer feinen Nadel durchstechen: einen Winkel oder ein Quadrat an der äußeren Ecke, einen Ring oder ein Kreuz in der Mitte. Auf die Finger achten.
machine-lay-by = Bevor die Maschine anfängt, den Bogen schieben, bis die Stiche auf den Marken der Ebene register liegen. Sie sind nur zum Anlegen da und werden nicht geschnitten.
machine-turn-by = Den Bogen seitlich wenden, wie eine Buchseite, und nach seinen gedruckten Marken anlegen.
machine-turn-by-bed = Jeden Bogen an seinem Platz seitlich wenden, wie eine Buchseite, und nach seinen gedruckten Marken anlegen.
machine-turn = Den Bogen seitlich wenden, wie eine Buchseite, und an dieselben Anschläge schieben. Er muss { $width } breit sein: Um so viel er abweicht, liegen die Rillen beider Seiten auseinander.
machine-turn-bed = Jeden Bogen an seinem Platz seitlich wenden, wie eine Buchseite, und an dieselben Anschläge oder Linien legen. Wie er liegt, muss er { $width } breit sein: Um so viel er abweicht, liegen die Rillen beider Seiten auseinander.
machine-cut = Bogen { $sheet } schneiden.
machine-cut-on-bed = Bogen { $sheet } schneiden, wie er auf dem Tisch liegt: { $files }.
machine-window = { $n } × { $piece } im Fenster von { $host }: vor diesem Fenster geschnitten. Sortiert das Schneideprogramm selbst, dann Inneres zuerst.
machine-pair = { $n } × { $piece } liegen paarweise Kopf an Fuß und greifen ineinander: ein gerader Schnitt ginge durch eines davon.
machine-picture = Die Teile auf dem Bogen { $sheet }.
sheet-heading = { $n_is ->
    [one] Bogen { $sheet } aufteilen: { $width } × { $height }
   *[other] { $n } Bögen { $sheet } aufteilen: { $width } × { $height }
}

sheet-offcut = Rest
sheet-times = { $n_is ->
    [one] { $sheet }: einmal schneiden
   *[other] { $sheet }: { $n }-mal schneiden
}

sheet-from-drawer = Aus der Schublade nehmen.
sheet-stands = Den Bogen { $width } breit und { $height } hoch hinlegen.
sheet-stands-grain = Den Bogen { $width } breit und { $height } hoch hinlegen, die Laufrichtung vom Körper weg.
sheet-stands-across = Den Bogen { $width } breit und { $height } hoch hinlegen, die Laufrichtung von links nach rechts.
sheet-stands-pattern = Den Bogen { $width } breit und { $height } hoch hinlegen, die Oberkante des Musters vom Körper weg.
cut-stack = Diese Bögen im Stapel schneiden, so viele zugleich, wie sauber gehen. Den ersten Stapel prüfen, dann weiterschneiden.
offcuts-heading = Reste aufheben
offcut-spare = { $what }, { $stock }, { $width } × { $height }: reicht als Reserve für { $part }.
offcut-try = { $what }, { $stock }, { $width } × { $height }: für Proben mit Rillen und Leim.

## Schnittplan
plan-words = Von der Klinge bis zum Anschlag messen. Was dazwischen liegt, wird abgeschnitten.
plan-words-names = Jeden Streifen und Rest, den die Schritte nennen, mit seinem Namen beschriften.
plan-set = Den Anschlag auf { $stop } stellen.
plan-leave = Den Anschlag auf { $stop } lassen.
plan-left = { $piece } so liegen lassen, die linke Kante am Anschlag.
plan-left-each = Jedes Stück so anlegen, wie es liegt: { $piece }, die linke Kante am Anschlag.
plan-lower = { $piece } so liegen lassen, die untere Kante am Anschlag.
plan-lower-each = Jedes Stück so anlegen, wie es liegt: { $piece }, die untere Kante am Anschlag.
plan-turn = { $piece } um ein Viertel im Uhrzeigersinn drehen: Die untere Kante kommt an den Anschlag.
plan-turn-each = Jedes Stück um ein Viertel im Uhrzeigersinn drehen: { $piece }. Die untere Kante kommt an den Anschlag.
plan-turn-back = { $piece } um ein Viertel zurückdrehen: Die linke Kante kommt an den Anschlag.
plan-turn-back-each = Jedes Stück um ein Viertel zurückdrehen: { $piece }. Die linke Kante kommt an den Anschlag.
plan-cut = { $n_is ->
    [one] { $what } abschneiden.
   *[other] { $n } × { $what } abschneiden und den Rest jedes Mal an den Anschlag schieben.
}
plan-trim = Den Streifen am Anschlag abschneiden; er ist Abfall.
plan-rest-more = Den Rest von { $what }, { $width } × { $height }, für einen späteren Schritt aufheben.
plan-rest-strip = Der Rest heißt { $what }: { $width } × { $height }.
plan-rest-part = Der Rest ist { $what }.
plan-rest-offcut = Den Rest aufheben als { $what }: { $width } × { $height }.
plan-rest-waste = Den Rest wegwerfen; er ist Abfall.
plan-long = Dieser Schnitt ist { $length } lang: eine lange Schneidemaschine nehmen, oder Messer und Lineal.
plan-picture = { $piece } am Anschlag, mit der Klinge und dem, was abgeschnitten wird.
thing-sheet = Bogen
thing-strip = Streifen { $n }
thing-offcut = Rest { $n }
thing-waste = Abfall

## Formen
shape-heading = Ecken, Ausschnitte und Löcher
shape-words = Weglassen, wo eine Maschine geschnitten hat. Von der Vorderseite aus arbeiten, von der linken und oberen Kante messen.
shape-head = { $n_is ->
    [one] { $part } formen.
   *[other] Alle { $n } Stück formen: { $part }.
}
shape-heads = Jedes dieser Teile gleich formen.
shape-trace = Das Teil von seiner Seite in templates.pdf abpausen, in wahrer Größe gedruckt. An den Linien schneiden, Öffnungen zuerst.
shape-mark = Die Abstände im Bild an den Kanten anzeichnen. Zwischen den Marken gerade schneiden.
shape-trace-edge = Die gebogene Kante von ihrer Seite in templates.pdf abpausen, in wahrer Größe gedruckt, und an ihr entlang schneiden.
shape-edge = Von der Seite in templates.pdf abpausen, in wahrer Größe gedruckt: { $edges }. An dieser Linie von Hand schneiden: Ein Schneidegerät schneidet gerade.
cut-scallop = die Bogenkante
cut-wave = die Wellenkante
cut-zigzag = die Zackenkante
cut-deckle = der Büttenrand
cut-notch = die Kerbe
shape-row-level = { $n } Schlitze { $width } × { $height } in einer Reihe schneiden, { $aside } von oben. Der erste liegt { $first } von links, jeder weitere { $apart } weiter.
shape-row-upright = { $n } Schlitze { $width } × { $height } in einer Reihe schneiden, { $aside } von links. Der erste liegt { $first } von oben, jeder weitere { $apart } weiter.
shape-clip = { $n_is ->
    [one] Die Ecke { $corners } abschrägen, { $across } an der waagrechten Kante und { $up } an der senkrechten.
   *[other] Diese Ecken abschrägen: { $corners }. Je { $across } an der waagrechten Kante und { $up } an der senkrechten.
}
shape-round = { $n_is ->
    [one] Die Ecke { $corners } runden, Radius { $radius }.
   *[other] Diese Ecken runden, Radius { $radius }: { $corners }.
}
shape-step = { $n_is ->
    [one] Aus der Ecke { $corners } ein Rechteck schneiden, { $across } breit und { $up } hoch.
   *[other] Aus diesen Ecken ein Rechteck schneiden, { $across } breit und { $up } hoch: { $corners }.
}
shape-notch-round-level = { $n_is ->
    [one] In die { $edge } Kante eine runde Kerbe schneiden, { $wide } breit und { $deep } tief. Mitte { $at } von links.
   *[other] In die { $edge } Kante runde Kerben schneiden, { $wide } breit und { $deep } tief. Mitten { $at } von links.
}
shape-notch-round-upright = { $n_is ->
    [one] In die { $edge } Kante eine runde Kerbe schneiden, { $wide } breit und { $deep } tief. Mitte { $at } von oben.
   *[other] In die { $edge } Kante runde Kerben schneiden, { $wide } breit und { $deep } tief. Mitten { $at } von oben.
}
shape-notch-pointed-level = { $n_is ->
    [one] In die { $edge } Kante eine spitze Kerbe schneiden, { $wide } breit und { $deep } tief. Mitte { $at } von links.
   *[other] In die { $edge } Kante spitze Kerben schneiden, { $wide } breit und { $deep } tief. Mitten { $at } von links.
}
shape-notch-pointed-upright = { $n_is ->
    [one] In die { $edge } Kante eine spitze Kerbe schneiden, { $wide } breit und { $deep } tief. Mitte { $at } von oben.
   *[other] In die { $edge } Kante spitze Kerben schneiden, { $wide } breit und { $deep } tief. Mitten { $at } von oben.
}
shape-notch-square-level = { $n_is ->
    [one] In die { $edge } Kante eine rechteckige Kerbe schneiden, { $wide } breit und { $deep } tief. Mitte { $at } von links.
   *[other] In die { $edge } Kante rechteckige Kerben schneiden, { $wide } breit und { $deep } tief. Mitten { $at } von links.
}
shape-notch-square-upright = { $n_is ->
    [one] In die { $edge } Kante eine rechteckige Kerbe schneiden, { $wide } breit und { $deep } tief. Mitte { $at } von oben.
   *[other] In die { $edge } Kante rechteckige Kerben schneiden, { $wide } breit und { $deep } tief. Mitten { $at } von oben.
}
shape-slot = Einen schrägen Schlitz schneiden, { $width } breit. Ein Ende liegt { $left } von links und { $top } von oben. Das andere liegt { $to_left } von links und { $to_top } von oben.
shape-punch = { $n_is ->
    [one] Ein Loch stanzen, { $across } weit, Mitte { $left } von links und { $top } von oben.
   *[other] Löcher stanzen, { $across } weit, Mitten { $left } von links. Von oben liegen sie bei { $top }.
}
shape-compass = { $n_is ->
    [one] Mit dem Zirkel einen Kreis zeichnen, { $across } weit, Mitte { $left } von links und { $top } von oben. Ausschneiden.
   *[other] Mit dem Zirkel Kreise zeichnen, { $across } weit, Mitten { $left } von links. Von oben liegen sie bei { $top }. Ausschneiden.
}
shape-pierce = { $n_is ->
    [one] Ein Loch stechen, { $across } weit, Mitte { $left } von links und { $top } von oben.
   *[other] Löcher stechen, { $across } weit, Mitten { $left } von links. Von oben liegen sie bei { $top }.
}
shape-open = Einen Ausschnitt schneiden, { $width } × { $height }, { $left } von links und { $top } von oben.
shape-open-soft = Einen Ausschnitt schneiden, { $width } × { $height }, { $left } von links und { $top } von oben. Seine Ecken mit einem Radius von { $radius } abrunden.
shape-open-trace = Den Ausschnitt von seiner Seite in templates.pdf abpausen, in wahrer Größe gedruckt. Er ist insgesamt { $width } × { $height } groß, { $left } von links und { $top } von oben. Ausschneiden.
shape-open-shape = Den Ausschnitt im Bild schneiden, insgesamt { $width } × { $height }, { $left } von links und { $top } von oben.
shape-picture = { $part } flach liegend, mit den Abständen von links und von oben.
corners-all = alle vier
corner-upper-right = rechts oben
corner-upper-left = links oben
corner-lower-right = rechts unten
corner-lower-left = links unten

## Rillen
score-section = Die Falze rillen
score-words = Weglassen, was eine Maschine gerillt hat. Die genannte Kante an den Anschlag legen und beim Rillen dort halten.
score-words-face = Mit der Vorderseite nach oben rillen. Lieber zweimal leicht drücken als einmal fest.
score-heading = Bei { $at } rillen
score-heading-many = In { $n } Abständen rillen
score-between-words = Abstände, für die das Brett keine Nut hat, anzeichnen und am Lineal rillen.
score-left-edge = Die linke Kante an den Anschlag legen: { $part }.
score-left-edges = Bei jedem dieser Teile die linke Kante an den Anschlag legen.
score-top-edge = Drehen, bis die obere Kante am Anschlag liegt: { $part }.
score-top-edges = Jedes dieser Teile drehen, bis die obere Kante am Anschlag liegt.
score-at = Bei { $at } rillen.
score-part-left = Bei { $at } rillen, aber nur zwischen { $from } und { $to } von der oberen Kante.
score-part-top = Bei { $at } rillen, aber nur zwischen { $from } und { $to } von der linken Kante.
score-again = Um eine halbe Drehung wenden und nochmals bei { $at } rillen.
score-all = { $n_is ->
    [2] Mit beiden ebenso verfahren.
   *[other] Mit allen { $n } ebenso verfahren.
}
score-picture = { $part } am Anschlag, mit den Abständen der Rillen.
score-slanted-heading = Von Ecke zu Ecke rillen
score-slanted = Die schrägen Linien am Lineal rillen: { $part }.

## Falzen
fold-heading = Jedes Teil falzen
fold-words = Jedes Teil mit der Vorderseite nach oben hinlegen und einmal falzen, bevor etwas geklebt wird.
fold-words-spring = Jeden Falz mit dem Falzbein schärfen und dann aufspringen lassen.
fold-head = { $n_is ->
    [one] { $part } falzen.
    [2] Beide Stücke falzen: { $part }.
   *[other] Alle { $n } Stück falzen: { $part }.
}
fold-heads = Jedes dieser Teile falzen.
fold-valley-at-left = { $at } von links: zur Vorderseite hin falzen (Talfalz).
fold-valley-at-top = { $at } von oben: zur Vorderseite hin falzen (Talfalz).
fold-mountain-at-left = { $at } von links: zur Rückseite hin falzen (Bergfalz).
fold-mountain-at-top = { $at } von oben: zur Rückseite hin falzen (Bergfalz).
fold-both-at-left = { $at } von links: nach beiden Seiten falzen (Wechselfalz).
fold-both-at-top = { $at } von oben: nach beiden Seiten falzen (Wechselfalz).
fold-each = Jedes Teil an seinen eigenen Stellen falzen.
fold-valley-head-left = Zur Vorderseite hin, von links (Talfalz)
fold-valley-head-top = Zur Vorderseite hin, von oben (Talfalz)
fold-mountain-head-left = Zur Rückseite hin, von links (Bergfalz)
fold-mountain-head-top = Zur Rückseite hin, von oben (Bergfalz)
fold-both-head-left = Nach beiden Seiten, von links
fold-both-head-top = Nach beiden Seiten, von oben
fold-valley-askew = An den schrägen Rillen zur Vorderseite hin falzen (Talfalz).
fold-mountain-askew = An den schrägen Rillen zur Rückseite hin falzen (Bergfalz).
fold-both-askew = An den schrägen Rillen nach beiden Seiten falzen (Wechselfalz).
work-how = Jede Rille, die nach beiden Seiten geht, mehrmals ganz zur Vorderseite und ganz zur Rückseite umlegen.
work-why = Prüfen, ob die Felder außen an diesen Rillen leicht schwingen: Diese Stehfalze tragen die Blätter beim Öffnen.
fold-over = Auf das Bild achten: Es zeigt die Rückseite.
fold-picture = { $part } beim Falzen, mit Pfeilen für den Weg der Klappen.
key-shows = Linien der Bilder: Schnitt durchgezogen, Talfalz gestrichelt, Bergfalz Strich und Punkt, Wechselfalz Strich und zwei Punkte.
key-faces = In den Bildern ist die Rückseite eines Teils dunkler als die Vorderseite. Gemessen wird beim Falzen immer auf der Vorderseite.
key-faces-pictured = In den Bildern ist die Rückseite eines Teils dunkler als die Vorderseite; wo das Papier beidseitig bedruckt ist, zeigt sie diesen Druck. Gemessen wird beim Falzen immer auf der Vorderseite.
key-cut = Schnitt
key-valley = Talfalz
key-mountain = Bergfalz
key-both = Wechselfalz
key-tape = Klebeband
key-glue = Leim

## Kleben
stick-words = Klebeband nehmen, wo alles an seinem Platz bleibt. Leim nehmen, wo sich noch etwas verschieben muss. Links, rechts, oben und unten sind beim Kleben so gemeint, wie das Bild es zeigt.
stick-paper = Papier auf Blättern mit Klebeband halten: Nasser Leim auf nur einer Seite wellt ein Blatt.
stick-times = An allen { $n } Stellen ebenso.
stick-elsewhere = Bei { $pages } ist es { $what } auf { $on }.
stick-again = Ebenso verfahren: { $places }.
stick-picture = Wo { $what } auf { $on } kommt.
tape-head = { $what } auf { $on } kleben.
tape-run = { $length } Klebeband, { $width } breit, auf die { $face } kleben: { $panel }.
tape-run-each = Je { $length } Klebeband, { $width } breit, auf die { $face } kleben: { $panel }.
tape-press = { $n_is ->
    [one] Schutzstreifen abziehen. Umlegen und auf die { $side } drücken: { $panel } auf { $on }.
   *[other] Schutzstreifen abziehen. Die Klebelaschen umlegen und auf die { $side } drücken: { $on }.
}
round-run = Klebeband, { $width } breit, entlang aller vier Kanten auf die { $face } kleben: insgesamt { $length } je Teil.
round-run-each = Klebeband, { $width } breit, auf der { $face } jedes Teils entlang aller vier Kanten, so lang wie in der Tabelle.
together-stick = Jedes dieser Teile an seine Stelle kleben.
together-glue = Jedes dieser Teile an seine Stelle leimen.
together-glue-order = Jedes dieser Teile an seine Stelle leimen, in dieser Reihenfolge.
together-on = { $side } von { $on }
together-head-on = Kommt auf
together-head-pages = Wo
together-head-tape = Klebeband
together-lay = Von jedem den Schutzstreifen abziehen, auf seine Fläche legen und andrücken.
together-press = Jedes auf seine Fläche drücken und anreiben.
round-press = Schutzstreifen abziehen, auf die { $side } legen und andrücken: { $on }.
border-round = Ringsum einen Rand von { $border } lassen.
border-sides = Frei lassen: { $sides }.
border-flush = { $n_is ->
    [one] Die { $edges } Kante bündig halten.
   *[other] Die { $edges } Kante bündig halten.
}
side-left = links { $free }
side-right = rechts { $free }
side-above = oben { $free }
side-below = unten { $free }
edge-left = linke
edge-right = rechte
edge-above = obere
edge-below = untere
glue-head = { $what } auf { $on } leimen.
glue-spread = Einen dünnen Film Leim auf die { $face } streichen: { $panel }.
glue-spread-each = Je einen dünnen Film Leim auf die { $face } streichen: { $panel }.
glue-press = { $n_is ->
    [one] Auf die { $side } drücken und anreiben: { $on }.
   *[other] Alle auf die { $side } drücken und anreiben: { $on }.
}
glue-warn = Leim, der an den Kanten austritt, sofort abwischen.
glue-warn-gusset = Die freien Felder daneben ohne Leim lassen: Sie müssen sich biegen.
round-head = Album schließen und { $what } darüberschieben, bis zur Mitte seiner Höhe.
slide-head = { $what } in { $on } schieben.
nest-head = { $what } in { $on } legen.
nest-how = Jedes in das vorige legen, Falz in Falz.
pile-named = Stapel aus { $mark } für { $pages }
pile-head = Teile zu Stapeln leimen, Fläche auf Fläche und bündig: { $part }.
pile-glue = Dazwischen einen dünnen Film Leim streichen und anreiben.
pile-of = { $piles_is ->
    [one] Einen Stapel zu { $n } machen, für { $pages }.
   *[other] { $piles } Stapel zu { $n } machen, je einen für { $pages }.
}
turn-level-head = { $part } an Kopf und Fuß einschlagen.
turn-upright-head = { $part } an den Vorderkanten einschlagen.
turn-glue = Einen dünnen Film Leim auf die Rückseite des Überstands streichen.
turn-level-how = Über die Kanten der Deckel und der Rückeneinlage ziehen und anreiben. An jeder Ecke einkneifen.
turn-upright-how = Über die Kanten der Deckel ziehen, über die eingekniffenen Ecken, und anreiben.
joint-head = Mit dem Falzbein beide Gelenke nachziehen.
joint-how = Den Bezug von außen in jedes Gelenk drücken, solange der Leim feucht ist.
tie-head = Ein Band, { $width } breit, durch den Schlitz ziehen: { $parts }.
tie-through = Von außen einführen und das lange Ende außen hängen lassen.
tie-end = Innen { $end } vom Ende des Bandes flach anleimen, von der Kante weg.

## Blätter
pages-heading = Die Blätter anfertigen
pages-words = Immer nur die gefalzten Teile eines Blattes auslegen.
job-line = Futter in die Hülle kleben: { $what }
job-page = { $what } anfertigen
job-face = Die Zierpapiere aufkleben: { $what }

## Rücken
spine-heading = Den Rücken bauen
spine-words = Die Teile der Reihe nach auslegen, Vorderseite oben, bevor etwas verbunden wird.
spine-words-flexi-hinge = In der Mitte jedes Streifens liegt die Grundlasche, daneben je eine Balgfalte, außen je ein Stehfalz. Mit dem schmalen Streifen beginnen und zum breiten hin arbeiten.
spine-words-concertina = Die Stücke der Reihe nach auslegen, Vorderseite oben. Gleichnamige Felder zählen von links.
job-strips = Die Teile des Rückens verbinden

## Einband
cover-heading = Den Einband anfertigen
cover-words = Jedes Teil vor dem Leimen trocken anpassen.
cover-words-case = Zuerst auf der Rückseite des Bezugs anzeichnen, wo jeder Deckel liegt. Die Buchdecke unter einem Gewicht flach trocknen lassen, bevor der Rücken hineinkommt.
job-cover = Den Einband zusammensetzen
job-meet = Den Rücken in den Einband setzen
meet-bases = Die übrigen Grundlaschen daneben ebenso anleimen: noch { $n }.
job-line-cover = Den Einband innen auskleiden
flaps-head = Die Endklappen innen an den Einband leimen.
flaps-glue = Den Einband offen aufstellen. Die Außenseite jeder Endklappe dünn mit Leim bestreichen.
flaps-press = Jede Klappe innen an ihren Deckel drücken und anreiben.
flaps-why = Sie tragen den Block: Später kommt Papier darüber.

## Binden
bind-heading = Die Blätter einhängen
bind-words = Mit dem letzten Blatt beginnen, damit keines im Weg ist. Zum ersten hin arbeiten.
job-hang = { $what } einhängen
hang-head = { $page } an { $tab } hängen.
hang-heads = Blätter { $pages } einhängen.
hang-as = Ebenso wie bei { $page }.
hang-where = { $page } an { $tab }.
hang-tape = { $length } Klebeband, { $width } breit, auf die { $face } des Stehfalzes kleben. Den Schutzstreifen daran lassen, ein Ende nach außen geknickt.
hang-glue = Die andere Seite des Stehfalzes dünn mit Leim bestreichen.
hang-glue-only = Eine Seite des Stehfalzes dünn mit Leim bestreichen.
hang-slide = Das Blatt bis an den Falz aufschieben und rücken, bis Kopf und Fuß bündig sind.
hang-peel = Den Schutzstreifen am Ende herausziehen, dann beide Seiten andrücken.
hang-warn-plain = Die Rille ohne Leim lassen und Makulatur zwischen die Blätter legen.
hang-warn = Die Balgfalte ohne Leim lassen und Makulatur zwischen die Blätter legen.
job-over = Zierpapiere über die Stehfalze kleben: { $what }
hang-picture = { $page } wird auf { $tab } geschoben.
leaf-glue = Die { $face } des Stehfalzes dünn mit Leim bestreichen. Auf die { $side } des Blattes legen.
leaf-press = Rücken, bis Kopf und Fuß bündig sind, dann andrücken.

## Prüfen
check-heading = Prüfen, bevor der Leim abbindet
check-words = Das geschieht, solange sich der feuchte Leim noch schieben lässt, also in einigen Minuten.
check-flush = Am Fuß entlangsehen: Alle Blätter sind bündig.
check-pitch = Vom Fuß her sehen: Am Rücken stehen die Blätter { $pitch } auseinander.
check-turn = Jedes Blatt nach beiden Seiten wenden: Keines hakt am nächsten.
check-gusset = Jede Balgfalte biegen: Sie ist ohne Leim und bewegt sich.
check-squeeze = Von der Vorderkante in jede Tasche sehen: Kein Leim ist zu sehen.
check-close = Das Album schließen: Ohne Druck liegen die Blätter etwa { $thick } dick.
check-dry = Makulatur zwischen die Blätter legen und beschweren, bis alles trocken ist, wie es auf dem Leim steht.

## Füllen
fill-heading = Die Taschen füllen
fill-words = Warten, bis alles trocken ist.
job-insert = Anfertigen: { $what }
job-fill = Einstecken: { $what }
job-round = Die Banderole umlegen
job-prints = Die Fotos einsetzen
job-clips = Die Reiter über Kanten kleben
job-loose = Aufbewahren, was in keine Tasche kommt
sew-head = Durch den Falz zusammennähen: { $parts }.
sew-pierce = Die Blätter in der Mitte öffnen, bündig klammern und die Ahle durch jedes Loch stechen.
sew-thread = Einen Faden dreimal so lang wie der Falz abschneiden und einfädeln.
sew-three = Von innen in der Mitte hinaus, oben hinein, unten hinaus, in der Mitte wieder hinein.
sew-five-up = Von innen in der Mitte hinaus, bei Loch 2 hinein, bei Loch 1 hinaus, bei Loch 2 wieder hinein.
sew-five-down = An der Mitte vorbei, bei Loch 4 hinaus, bei Loch 5 hinein, bei Loch 4 hinaus, in der Mitte hinein.
sew-knot = Entlang dem Falz festziehen, beide Enden über dem langen Stich innen verknoten und kurz abschneiden.
mount-head = Ein Foto von { $width } × { $height } anbringen: { $part }.
mount-corners = Vier Fotoecken auf die Ecken des Fotos schieben: Kein Leim berührt das Foto.
mount-place = Das Foto { $left } von links und { $top } von oben auflegen und die Ecken andrücken.
mount-behind = Umdrehen und das Foto mit dem Bild nach unten über das Fenster legen, ringsum gleich weit über den Rand.
mount-behind-hold = Vier Fotoecken auf die Ecken des Fotos schieben und andrücken: Kein Leim berührt das Foto.
print-slots = Ein Foto von { $width } × { $height } in die Schlitze stecken: { $part }.
print-slots-how = Eine Ecke nach der anderen von vorn durch ihren Schlitz schieben.
print-corners = Ein Foto von { $width } × { $height } unter die Ecken stecken: { $part }.
print-corners-how = Ein wenig biegen und eine Ecke nach der anderen einschieben.
print-window = Ein Foto von { $width } × { $height } einschieben: { $part }.
print-window-how = Von der offenen Seite her einschieben, bis es das Fenster füllt.
print-pages = So kommt es in { $pages }.
clip-head = { $part } über eine Kante falzen.
clip-where = Die Kante eines Blattes oder einer Karte wählen, an der man es finden will.
clip-glue = Innen auf beiden Flächen die letzten { $grip } mit Leim bestreichen und beidseitig andrücken.
loose-head = { $part } beiseitelegen: Keine Tasche nimmt es auf.
fill-head = { $part } einstecken: { $page }.
fill-picture = { $part } wird eingesteckt: { $page }.
fill-folded = Vorher zusammenlegen: Es kommt gefaltet hinein.
fill-which = Hier gibt es mehrere Taschen: Die im Bild nehmen.
order-heading = In dieser Reihenfolge arbeiten

## Was wohin passt
fits-heading = Was wohin passt
fits-words = Eigene Fotos nachmessen: Sie können ein, zwei Millimeter abweichen. Eine Tasche, in der etwas steckt, nimmt weniger auf.
fits-caption = Übliche Fotos und Karten, hochkant oder quer
fits-head-print = Foto oder Karte
fits-place = { $page }, Tasche von { $width } × { $height }
fits-more = Andere Blätter fassen, was so groß ist wie ihre eigenen Taschen.
fits-print = { $name }: { $width } × { $height }
fits-upright = hochkant
fits-upright-shows = hochkant, { $shows } steht heraus
fits-lying = quer
fits-lying-shows = quer, { $shows } steht heraus
fits-not = –

## Zum Unterrichten
teach-time = Etwa { $time }.
teach-step = { $n } · { $head }

## Wenn etwas misslingt
wrong-heading = Fehler beheben
wrong-caption = Das meiste lässt sich eine Zeit lang beheben
wrong-head-what = Was geschehen ist
wrong-head-do = Was zu tun ist
wrong-head-until = Bis wann
wrong-cut = Ein Teil ist falsch geschnitten oder gerillt.
wrong-cut-do = Aus einem Rest oder Reservebogen ein neues schneiden. Maße und Rillen stehen in der Liste.
wrong-cut-until = Jederzeit, bevor sein Blatt geklebt ist
wrong-fold = Eine Rille ist falsch herum gefalzt.
wrong-fold-do = Richtig herum scharf falzen und mit dem Falzbein reiben. Bricht die Oberfläche, ein neues Teil nehmen.
wrong-fold-until = Bevor es geklebt ist
wrong-seam = Eine Klebelasche bleibt offen, oder Klebeband sitzt schief.
wrong-seam-do = Klebeband sofort langsam und flach abheben. Leim mit einem Kartonstreifen in die offene Klebelasche schieben und andrücken.
wrong-seam-until = Klebeband: einige Sekunden. Leim: jederzeit
wrong-strips = Die Streifen des Rückens liegen in falscher Reihenfolge.
wrong-strips-do = Auseinanderziehen und abwischen. Halten sie schon, neue Streifen nehmen, statt diese zu zerreißen.
wrong-strips-until = Solange der Leim feucht ist
wrong-page = Ein Blatt hängt kopfüber oder am falschen Stehfalz.
wrong-page-do = Abziehen. Ist es trocken, den Stehfalz an der Rille abschneiden und das Blatt an einen neuen Streifen hängen.
wrong-page-until = Solange der Leim feucht ist
wrong-cover = Der Einband sitzt verkehrt herum.
wrong-cover-do = Abheben und beides abwischen. Ist es trocken, den Rücken am Grund freischneiden. Beides neu machen.
wrong-cover-until = Solange der Leim feucht ist
wrong-panel = Ein Zierpapier liegt schief oder wirft Blasen.
wrong-panel-do = Eine Ecke anheben und neu auflegen. Blasen mit einer Nadel anstechen und durch Papier anreiben.
wrong-panel-until = Bevor das Klebeband gedrückt oder der Leim trocken ist
wrong-tight = Etwas klemmt in seiner Tasche.
wrong-tight-do = Einen Millimeter davon abschneiden und die Ecken runden. Die Tasche lassen, wie sie ist.
wrong-tight-until = Jederzeit

## Etiketten
label-maker = Entworfen von { $maker }
label-ready = { $n_is ->
    [one] Eine fertige Einbanddecke
   *[other] { $n } fertige Einbanddecken
}
label-pieces = { $n_is ->
    [one] Ein Teil aus { $stock }, geschnitten
   *[other] { $n } Teile aus { $stock }, geschnitten
}
label-scored = { $n_is ->
    [one] Ein Teil aus { $stock }, geschnitten und gerillt
   *[other] { $n } Teile aus { $stock }, geschnitten und gerillt
}
label-sheets = { $n_is ->
    [one] Ein ganzer Bogen { $stock }
   *[other] { $n } ganze Bögen { $stock }
}
label-needs = Noch gebraucht werden: { $needs }.
label-tape = { $length } Klebeband, { $width } breit
label-glue = Weißleim
label-brush = ein Pinsel
label-folder = ein Falzbein
label-mind = Zuerst die Anleitung lesen. Klingen und Leim von kleinen Kindern fernhalten.
label-counts = { $n } je Bausatz, { $all } insgesamt

## Für die Werkstatt
order-made = Der Auftrag
order-words = { $n_is ->
    [one] Von diesem Album einen Bausatz anfertigen.
   *[other] Von diesem Album { $n } Bausätze anfertigen. Was hier von Bögen und Teilen steht, gilt für alle.
}
order-spare = { $n_is ->
    [one] Eins davon ist Reserve, falls etwas misslingt.
   *[other] { $n } davon sind Reserve, falls etwas misslingt.
}
order-sheets = { $stock } in ganzen Bögen übergeben: Jeder Bausatz hat eigene Bögen.
order-cut = { $stock } geschnitten übergeben, nicht gerillt.
order-scored = { $stock } geschnitten und gerillt übergeben.
order-unsaid = Das Album sagt nicht, was übergeben wird. Dieses Blatt schneidet und rillt daher alle Bausätze, der Leitfaden einen einzigen.
batch-words = Dieser Auftrag umfasst mehrere Bausätze. Die Buchstaben der Teile sind in allen Bausätzen, auf den Bögen und in den Leitfäden dieselben.
batch-caption = { $n_is ->
    [one] Ein Bausatz
   *[other] { $n } Bausätze, die zur Reserve eingerechnet
}
batch-head-kit = Bausatz
batch-head-album = Album
batch-head-copies = Anfertigen
batch-head-pieces = Stücke
batch-head-price = Kosten
batch-cost = Die Bögen des ganzen Auftrags kosten { $cost }.
batch-kit = { $kit }: { $n_is ->
    [one] ein Beutel
   *[other] { $n } Beutel
}
batch-stick = { $n_is ->
    [one] Klebeband und Leim für { $kit }, sofern man sie mitgibt
   *[other] Klebeband und Leim für alle { $n } von { $kit }, sofern man sie mitgibt
}
cost-heading = Die Kosten kennen
cost-words = Der Auftrag bezahlt ganze Packungen. Jeder Bausatz trägt seinen Anteil: an Bögen nach der Fläche seiner Teile, sonst nach Verbrauch. Beträge sind hier einmal gerundet, Summen können um einen Cent abweichen.
cost-caption = Was der Auftrag braucht, Beträge in { $currency }
cost-no-currency = eigener Währung
cost-head-what = Was
cost-head-amount = Menge
cost-head-buy = Kaufen
cost-head-left = Bleibt übrig
cost-head-cost = Kosten
cost-head-kit = Bausatz
cost-head-sold = Verkauft
cost-head-costs = Einer kostet
cost-head-ask = Verlangen
cost-head-more = Einer mehr kostet
cost-unknown = nicht bekannt
cost-no-price = kein Preis
cost-packs = { $n } × { $of }
cost-machine = Maschine
cost-hands = Handarbeit
cost-packaging = Verpackung
cost-tape = Klebeband
cost-tape-wide = Klebeband, { $width } breit
cost-ribbon = Schmuckband
cost-ribbon-wide = Schmuckband, { $width } breit
cost-glue = Leim
cost-thread = Heftfaden
cost-corners = Fotoecken
cost-cover = fertige Einbanddecke
cost-order = Von den Kosten zum Preis, alle Bausätze
cost-is-cost = Kosten
cost-is-overhead = Gemeinkosten, auf die Kosten
cost-is-profit = Gewinn, auf Kosten und Gemeinkosten
cost-is-fees = Gebühren, aus dem Preis
cost-is-tax = Steuer, aus dem Preis
cost-is-price = Preis
cost-kits = Kosten und Preis eines Bausatzes
cost-without = In keinem Betrag, weil der Preis oder die Menge fehlt: { $these }.
cost-another = Ein Bausatz mehr braucht noch eine Packung: { $these }. Was er davon verbraucht, steckt in dem, was einer mehr kostet.
cost-another-of = Einer mehr von { $kit } braucht noch eine Packung: { $these }. Was er davon verbraucht, steckt in dem, was einer mehr kostet.

## Blätter zur Wahl
chosen-heading = Die Blätter wählen
chosen-words = { $n_is ->
    [one] Das Album hat ein Blatt, und es wird gewählt, welches.
   *[other] Das Album hat { $n } Blätter, und jedes davon wird gewählt. Eine Art darf mehrmals vorkommen oder gar nicht.
}
chosen-caption = Die Arten von Blättern und die Teile für je ein Blatt
chosen-head-kind = Art
chosen-head-page = Blatt
chosen-head-pieces = Teile
chosen-order = Im Album stehen zuerst die Blätter der Art 1, dann die der Art 2 und so fort.
chosen-rest = Der Bausatz reicht für jede Wahl. Einige Teile bleiben daher übrig.
chosen-places = Die Papiere wechseln sich von Blatt zu Blatt ab: Für jedes Blatt das Papier nehmen, das an seiner Stelle kommt. Der Bausatz reicht für jede Wahl. Einige Teile bleiben daher übrig.
chosen-page = Blatt der Art { $n }
chosen-page-at = Blatt der Art { $n } an Stelle { $pages }
chosen-chapter = Blätter der Art { $n } anfertigen: { $kind }
chosen-group = Mit Blättern der Art { $kinds }
mixes-heading = Was jede Wahl braucht
mixes-words = Wer einen solchen Bausatz bekommt, wählt die Blätter selbst. Jeder Beutel reicht für jede Wahl.
mixes-kind = Art { $n }: { $kind }
mixes-pages = { $n } der Art { $kind }
mixes-caption = { $n_is ->
    [one] Bögen für jede Wahl
   *[other] Bögen, wenn alle { $n } Bausätze gleich gewählt werden
}
mixes-head-mix = Blätter
mixes-head-all = Alle Bögen
mixes-head-note = Hinweis
mixes-most = am meisten
mixes-bound = Von { $n } Möglichkeiten sind { $tried } ausgerechnet. Keine braucht mehr als { $most } Bögen; das ist eine Schranke, es können weniger sein.
mixes-tried = Von { $n } Möglichkeiten sind { $tried } ausgerechnet. Wie viele Bögen die anderen brauchen, ist nicht bekannt.
mixes-places = Die Papiere wechseln sich von Blatt zu Blatt ab, daher zählt die Reihenfolge. Was eingepackt wird, reicht für jede.
mixes-in-order = Was eingepackt wird, reicht für Blätter in der Reihenfolge der Arten. Für eine andere ist das nicht bewiesen.
mixes-not-proven = Was eingepackt wird, reicht für die Möglichkeiten in der Tabelle. Für andere ist das nicht bewiesen.

## Die Maschine
machine-heading = Die Maschine einrichten
machine-caption = Für diese Einstellungen sind die Dateien gemacht
machine-caption-of = Für diese Einstellungen sind die Dateien von { $stocks } gemacht
machine-head-what = Einstellung
machine-head-is = Wert
machine-bed = Größter Bogen, der hineingeht
machine-sheets-a-bed = Bögen, die zugleich auf dem Tisch liegen
machine-bed-fill = so viele, wie Platz haben
machine-bed-places = { $n }, jeder an seinem Ort
machine-bed-caption = Was zugleich auf dem Tisch liegt
machine-bed-file = Datei
machine-bed-files = { $back }, dann { $front }
machine-bed-lies = Bögen, und wo die linke untere Ecke eines jeden liegt
machine-lies = { $sheet }: { $places }
machine-lies-at = { $x } | { $y }
machine-lies-apart = { $these }; { $this }
machine-lies-turned = { $sheet }, eine Vierteldrehung nach links: { $places }
machine-bed-backs = Für eine Datei der Rückseiten liegt jeder Bogen mit der Vorderseite nach unten an demselben Platz. Dort wird er seitlich gewendet, wie eine Buchseite; die anderen bleiben liegen.
machine-kerf = Breite, die das Werkzeug wegnimmt (Schnittfuge)
machine-margin = Rand, der frei bleibt
machine-gap = Kleinster Abstand zweier Schnitte
machine-score = Rillen
machine-score-line = ein leichter Zug
machine-score-dash = Schnitte von { $dash }, { $gap } auseinander
machine-shared = Nachbarn teilen einen Schnitt
machine-passes = Jeder Zug wird gemacht
machine-passes-are = { $cut } × Schnitte, { $score } × Rillen, { $draw } × Zeichen; die Dateien enthalten sie alle
machine-nicks = Ungeschnittene Stege, die ein Teil halten
machine-nicks-are = { $n } zu { $length }; { $small } an Teilen unter { $under }
machine-marks = Passermarken
machine-marks-are = { $n } { $shape }, { $size } groß, { $inset } von den Kanten
machine-marks-corner = Winkel
machine-marks-ring = Ringe
machine-marks-square = gefüllte Quadrate
machine-marks-cross = Kreuze
machine-bleed = Der Druck läuft über den Schnitt hinaus um
machine-print-first = Vor dem Schneiden die Bögen aus print-first.pdf drucken, jeden so oft, wie der Name seiner Seite sagt.
machine-print-true = Mit 100 % drucken, ohne an die Seite anzupassen. Am ersten Bogen von Marke zu Marke nachmessen.
machine-print-align = Jeden Bogen so einlegen, wie die Datei ihn zeigt, die geschnitten wird. Die Maschine die Marken suchen lassen, dann schneiden.
machine-overrun = Geschlossene Schnitte laufen über ihren Anfang hinaus um
machine-trail = Die Messerspitze läuft nach um
machine-trail-plain = { $trail }; die Maschine oder ihr Programm soll an Ecken helfen
machine-trail-helped = { $trail }; die Dateien führen sie um Ecken, andere Hilfe also abschalten
machine-start = Geschlossene Schnitte beginnen
machine-start-hidden = an einer Ecke, die überklebt wird, wo es eine gibt
machine-first = Zuerst ausgeschnitten werden
machine-first-small = kleine Teile
machine-direction = Geschlossene Schnitte laufen
machine-part-right = mit dem Teil rechts vom Werkzeug
machine-clockwise = im Uhrzeigersinn
machine-counter-clockwise = gegen den Uhrzeigersinn
machine-curves = Bögen sind
machine-cubics = kubische Kurven; in DXF-Dateien der Version R12, die keine kennt, kurze Strecken
machine-lines = kurze Strecken, höchstens { $off } neben dem Bogen
machine-both-ways = Falze, die in beide Richtungen gehen, werden gerillt
machine-both-sides = auf beiden Seiten, die Rückseite zuerst, nach einer eigenen Datei
machine-text = Wörter auf den Teilen
machine-text-sizes = Namen und Maße
machine-text-all = Titel, Namen und Maße
machine-text-nothing = keine
machine-text-side = Gezeichnet werden sie
machine-text-back = auf der Rückseite, nach einer eigenen Datei, die zuerst kommt
machine-layers = Die Ebenen stehen in den Dateien als
machine-layers-draw-score-cut = Zeichen, Rillen, Schnitte
machine-layers-score-draw-cut = Rillen, Zeichen, Schnitte
machine-layers-cut-score-draw = Schnitte, Rillen, Zeichen: Die Maschine mit den letzten anfangen lassen
machine-layers-cut-draw-score = Schnitte, Zeichen, Rillen: Die Maschine mit den letzten anfangen lassen
machine-layers-draw-cut-score = Zeichen, Schnitte, Rillen: vor dem Schneiden rillen
machine-layers-score-cut-draw = Rillen, Schnitte, Zeichen: vor dem Schneiden zeichnen
machine-split = Jede Ebene hat eine eigene Datei
machine-svg-lines = Linien in SVG-Dateien sind
machine-svg-shapes = gefüllte Formen, { $wide } breit
machine-dxf-layers = Ebenen in DXF-Dateien unterscheiden sich
machine-dxf-names = nur im Namen
machine-dxf-colours = nur in der Farbe
machine-dxf-lines = Linien in DXF-Dateien sind
machine-dxf-single = einzelne Strecken und Kreisbögen
machine-time-caption = Wie lange die Maschine mit allen Zügen ihrer Dateien zu tun hat
machine-time-sheet = Bogen
machine-time-times = Wie oft
machine-time-each = Je Bogen
machine-time-all = Alle
machine-time-total = Alle Bögen
machine-time-unknown = nicht bekannt
machine-none = nichts
machine-yes = ja
machine-try = Auf einem Rest jedes Materials Schnitt und Rille proben und den richtigen Druck oder die Leistung notieren.
machine-try-unscored = Auf einem Rest jedes Materials einen Schnitt proben und den richtigen Druck oder die Leistung notieren.
machine-order = Die Maschine zuerst zeichnen und rillen lassen, zuletzt schneiden.
machine-order-unscored = Die Maschine zuerst zeichnen lassen, zuletzt schneiden. Die Dateien enthalten keine Rillen: Die Teile werden geschnitten übergeben, gerillt werden sie beim Bauen.
first-heading = Zuerst einen Bausatz anfertigen
first-words = Ein Fehler in einem Bausatz steckt in allen. Die übrigen erst schneiden, wenn dieser stimmt.
first-cut = Von jedem Bogen einen schneiden, bis alle Teile eines Bausatzes da sind.
first-measure = Drei davon nach der Liste messen, darunter das längste.
first-fold = Jedes Teil einmal rillen und falzen: Keine Rille bricht oder reißt.
first-make = Den Bausatz nach seinem Leitfaden zusammensetzen und notieren, wo man überlegen musste.
first-sign = Freigeben und als Muster aufheben.
first-signed = Name: ____________________  Datum: ______________
pack-heading = Die Beutel packen
pack-words = Die Teile in der Reihenfolge der Liste in jeden Beutel legen. Die größten kommen zuerst.
pack-caption = { $n_is ->
    [one] Im Beutel
   *[other] In jedem der { $n } Beutel
}
pack-head-mark = Buchst.
pack-head-piece = Teil
pack-head-size = Breite × Höhe
pack-head-each = Je Beutel
pack-head-all = In allen Beuteln
pack-sheet = ganze Bögen { $stock }
pack-picture = Die Teile eines Beutels, alle im selben Maßstab, jedes mit seinem Buchstaben und seiner Anzahl.
pack-guide = Den gedruckten Leitfaden dazulegen.
pack-needs = Auf dem Etikett steht, dass Klebeband, Leim und Werkzeug noch gebraucht werden. Streichen, was beigelegt wird.
pack-bag = Ein Beutel von { $width } × { $height } fasst sie. Aufeinander sind sie höchstens { $thick } dick.
pack-over = Sind alle Beutel gepackt, bleiben diese Stücke übrig. Bewahren Sie sie auf, falls etwas misslingt.
pack-parcel = Ein Paket für alle { $n } Beutel: { $width } × { $height }, höchstens { $thick } hoch.
pack-weight = { $n_is ->
    [one] Karton und Papier des Beutels wiegen { $weight }.
   *[other] Karton und Papier eines Beutels wiegen { $weight }, aller Beutel { $all }.
}
pack-weight-unknown = Ihr Gewicht ist nicht bekannt: einen Beutel wiegen.

## Namen: von Stücken, Teilen und Feldern
name-panel = Zierpapier { $what }
name-of-page = Blatt { $number } { $what }
name-of-kind = Art { $number } { $what }
name-on-page = { $what } von Blatt { $number }
name-of-insert = { $insert }, { $what }
name-leaf = { $what }, Lage { $number }
name-no = { $what } Nr. { $number }
name-counted = { $what } { $number }
name-length = { $what }, Teil { $number }
name-block = Zuschnitt für { $what }
term-accordion = Leporello
term-backing = Trägerstreifen
term-belly-band = Banderole
term-board = Deckel
term-booklet = Heft
term-booklet-leaf = Heftlage
term-concertina = Leporellorücken
term-corner-mount-front = Vorderteil mit Fotoecken
term-covering = Bezug
term-divider = Registerblatt
term-end-paper = Vorsatz
term-envelope = Umschlag
term-file-tab = Registerreiter
term-fold-out = Ausklappblatt
term-frame = Rahmen
term-gate = Altarfalz
term-gate-fold = Altarfalz
term-guard = Fälzel
term-hinge-strip = Scharnierstreifen
term-hinge = Scharnier
term-hinge-t = Mittelscharnier
term-journal-card = Notizkarte
term-leaf = Grundblatt
term-library-card-pocket = Karteikartentasche
term-liner = Rückenstreifen
term-notched-front = Vorderteil mit Griffkerbe
term-one-piece-sleeve = Hülle aus einem Stück
term-sleeve = Hülle
term-panel = Zierpapier
term-patch = Verstärkung
term-patch-in-the-front = Verstärkung vorn
term-patch-in-the-back = Verstärkung hinten
term-photo-corner = Fotoecke
term-photo-mat = Passepartout
term-plain-hinge = Scharnier
term-pocket-back = Taschenrückteil
term-pocket-front = Taschenteil
term-side-loading-pocket = Seitentasche
term-spine-board = Rückeneinlage
term-spine-lining = Rückenfutter
term-step-pocket = Stufentasche
term-stub = Ausgleichsstreifen
term-shape = Ausschnitt
term-tag = Anhänger
term-wallet = Mappe
term-corner-mount = Fotoeckenblatt
term-waterfall = Stufenblatt
term-notched = Kerbtasche
term-side-loading = Seitentasche
term-library-card = Karteitasche
term-tuck-envelope = Steckumschlag
term-wallet-back = Mappenrückteil
term-wallet-pocket = Mappentasche
term-window-lining = Fensterfutter
term-ready-made-cover = fertige Einbanddecke
term-wrap-cover = Umschlageinband
term-cover = Einband
term-back = Rückteil
term-back-joint = Gelenk hinten
term-base = Grundlasche
term-card = Karte
term-corner = Ecke
term-edge = Kantenstreifen
term-end-base = Grundlasche außen
term-end-flap = Endklappe
term-first-leaf = Flügel 1
term-flap = Klappe
term-fold = Falzstreifen
term-fore-edge = Vorderkante
term-front = Vorderteil
term-front-joint = Gelenk vorn
term-gusset = Balgfalte
term-inner-seam = Klebelasche innen
term-lap = Überlappung
term-left-edge = Kantenstreifen links
term-left-gusset = Balgfalte links
term-left-joint = Gelenk links
term-left-lap = Überlappung links
term-left-seam = Klebelasche links
term-left-tab = Stehfalz links
term-left-wing = Flügel links
term-level-seam = Klebelasche waagrecht
term-lining = Futter
term-lower-door = Flügel unten
term-lower-seam = Klebelasche unten
term-mat = Passepartout
term-outer-seam = Klebelasche außen
term-page = Blattfläche
term-pocket = Tasche
term-right-edge = Kantenstreifen rechts
term-right-gusset = Balgfalte rechts
term-right-joint = Gelenk rechts
term-right-lap = Überlappung rechts
term-right-seam = Klebelasche rechts
term-right-tab = Stehfalz rechts
term-right-wing = Flügel rechts
term-root = Ansatz
term-seam = Klebelasche
term-second-leaf = Flügel 2
term-spine = Rücken
term-tab = Stehfalz
term-tuck = Steckklappe
term-turn-in = Einschlag
term-upper-door = Flügel oben
term-upper-seam = Klebelasche oben
term-upright-seam = Klebelasche senkrecht
term-wing = Flügel
term-face-front = vorn
term-face-back = hinten
term-front-board = Vorderdeckel
term-back-board = Hinterdeckel
term-front-end-paper = Vorsatz vorn
term-back-end-paper = Vorsatz hinten
term-cover-back = Einband hinten
term-cover-back-inside = Einband hinten innen
term-cover-flap = Einbandklappe
term-cover-fore-edge = Einband Vorderkante
term-cover-front = Einband vorn
term-cover-front-inside = Einband vorn innen
term-cover-spine = Einbandrücken
term-front-flap = vorn, Klappe
term-front-lower-door = vorn, Flügel unten
term-front-lower-door-inside = vorn, Flügel unten, innen
term-front-upper-door = vorn, Flügel oben
term-front-upper-door-inside = vorn, Flügel oben, innen
term-front-pocket = vorn, Tasche
term-front-top = vorn, oben
term-front-envelope = vorn, Umschlag
term-front-first-leaf = vorn, Flügel 1
term-front-first-leaf-behind = vorn, Flügel 1, hinten
term-front-second-leaf = vorn, Flügel 2
term-front-second-leaf-behind = vorn, Flügel 2, hinten
term-back-flap = hinten, Klappe
term-back-lower-door = hinten, Flügel unten
term-back-lower-door-inside = hinten, Flügel unten, innen
term-back-upper-door = hinten, Flügel oben
term-back-upper-door-inside = hinten, Flügel oben, innen
term-back-pocket = hinten, Tasche
term-back-top = hinten, oben
term-back-envelope = hinten, Umschlag
term-back-first-leaf = hinten, Flügel 1
term-back-first-leaf-behind = hinten, Flügel 1, hinten
term-back-second-leaf = hinten, Flügel 2
term-back-second-leaf-behind = hinten, Flügel 2, hinten

## Arten, wie sie angeboten werden
page-pocket = Tasche aus zwei gerillten Teilen, am Rücken und an der Vorderkante offen
page-sleeve = Hülle aus einem Stück, am Kopf gefalzt, am Rücken und an der Vorderkante offen
page-notched = Taschenblatt mit Griffkerbe an der Vorderkante
page-wallet = Blatt mit Tasche am Rücken und einer Klappe, die sie schließt
page-tuck-envelope = Umschlag: vom Fuß her gefalzte Front, vom Kopf her eingesteckte Klappe
page-side-loading = Blatt mit einer Tasche, die nur an der Vorderkante offen ist
page-frame = Blatt mit einem Fenster für eine Fotogröße, das Foto wird von der Vorderkante her eingeschoben
page-corner-mount = Taschenblatt, das ein Foto an den Ecken hält, in Schlitzen oder unter aufgeklebten Dreiecken
page-library-card = Blatt mit niedriger Tasche, aus der eine Karte herausschaut
page-waterfall = Blatt mit zwei bis vier Taschen in Stufen, jede niedriger als die dahinter
page-gate-fold = Blatt mit zwei halben Türen, die sich von Kopf und Fuß darüberfalzen (Altarfalz)
page-fold-out = Blatt mit ein oder zwei Flügeln, die an der Vorderkante ausklappen
page-divider = einzelnes Blatt mit Registerreiter an der Vorderkante
spine-flexi-hinge = ineinandergesetzte Scharnierstreifen, deren Balgfalten die Blätter flach liegen lassen
spine-plain-hinge = je Blatt ein Streifen mit einer Rille, alle auf einem Träger
spine-stubs = Fälzel mit Ausgleichsstreifen dazwischen, am Rücken so dick wie die Blätter
spine-concertina = ein plissierter Streifen, je Blatt eine Falte und je Deckel eine Klappe
cover-case = zwei Deckel und Rückeneinlage unter eingeschlagenem Bezugpapier, innen mit Vorsatz
cover-ready-made = eine fertige Einbanddecke: zwei Deckel und ein Rücken; sie wird eingeklebt, nicht zugeschnitten
cover-wrap = ein Stück Karton um die Blätter, der Rücken zwischen zwei Rillen; gestückelt, wo kein Bogen reicht
insert-photo-mat = Passepartout
insert-journal-card = Notizkarte
insert-belly-band = Banderole
insert-file-tab = Registerreiter
insert-shape = Ausschnitt
insert-tag = Anhänger
insert-booklet = Heft
insert-accordion = Leporello
insert-envelope = Umschlag
print-2r = Foto 2R
print-3r = Foto 3R
print-4r = Foto 4R
print-5r = Foto 5R
print-8r = Foto 8R
print-9x13 = Foto 9×13
print-10x15 = Foto 10×15
print-cabinet = Kabinettkarte
print-carte = Visitformat
print-3x4-card = Karte 3×4 Zoll
print-4x6-card = Karte 4×6 Zoll
print-id-card = Ausweiskarte
print-instant-54x86 = Sofortbild 54×86
print-instant-72x86 = Sofortbild 72×86
print-instant-86x108 = Sofortbild 86×108
print-instant-88x107 = Sofortbild 88×107

## Wörter in Bildern
bench-stop = Anschlag
bench-fence = Anschlag
bench-blade = Klinge
bench-rest = Rest

## Ein Kurs
class-heading = Das zum Kurs mitbringen
class-words = { $n_is ->
    [one] Eine Person fertigt
   *[other] { $n } Personen fertigen
} dieses Album, jede aus eigenen Bögen, soweit sie nicht fertige Teile bekommt. Die Bögen nach der Tabelle verteilen.
class-sheets = Bögen zum Verteilen
class-head-group = Gruppe
class-head-makers = Personen
class-head-stock = Material
class-head-sheet = Bogen
class-head-by = Geschnitten
class-head-each = Je Person
class-head-all = Alle, mit Reserve
class-by-trimmer = auf der Schneidemaschine
class-by-machine = nach den Dateien
class-handed = { $group }: { $n_is ->
    [one] einen Beutel
   *[other] { $n } Beutel
} mit je { $pieces } zugeschnittenen Teilen verteilen.
class-tools = Werkzeug für alle Gruppen
class-head-tool = Werkzeug
class-head-many = Anzahl
class-shared = { $n_is ->
    [one] Jede Person hat jedes Werkzeug.
   *[other] Bis zu { $n } Personen einer Gruppe teilen sich Schneidemaschine, Schneidegerät, Rillbrett, Lochzange, Ahle und Gewicht. Alles andere hat jede.
}
class-pages = Für jede Person ein Blatt: das ihrer Gruppe drucken.
class-templates = Für jede Gruppe, die von Hand schneidet, die Teile in wahrer Größe: templates.pdf.
class-spares = Die Bögen und Teile zur Reserve, die dieser Auftrag zählt.
class-no-spares = In diesem Auftrag ist nichts zur Reserve: einige Bögen mehr mitbringen, falls etwas misslingt.
class-yours = Ein Album anfertigen: { $group }
class-you = { $n_is ->
    [one] Bögen und Werkzeug stehen unten.
   *[other] { $n } Personen fertigen je ein Album aus den Bögen unten.
}
class-you-pieces = { $n_is ->
    [one] Ein Album aus zugeschnittenen Teilen anfertigen.
   *[other] { $n } Personen fertigen je ein Album aus zugeschnittenen Teilen.
}
class-pieces = Die Teile
class-stick = Klebeband und Leim für alle
class-cut-trimmer = Auf der Schneidemaschine schneiden: { $sheets }.
class-cut-machine = Nach den Dateien schneiden: { $sheets }.
class-cut-done = Die Teile auslegen: Sie sind zugeschnitten.
class-score = Die Teile in den Abständen der Liste rillen
tool-machine = Schneidegerät

## Schablonen in wahrer Größe
prepress-title = { $title }: Bögen, die zuerst gedruckt werden
prepress-page = { $sheet }, { $times } ×
prepress-shows = Bogen { $sheet } in wahrer Größe, vor dem Schneiden { $times }-mal zu drucken: Passermarken und was auf seine Teile gedruckt wird.
template-title = { $title }: Schablonen
template-count = { $count } je Bausatz
template-plan = { $part }: { $tiles } Kacheln
template-page = { $title }: Schablonen in wahrer Größe, Seite { $page } von { $pages }.
template-check = Beide Linien mit dem Lineal prüfen. Stimmen sie nicht, mit 100 % neu drucken, ohne an die Seite anzupassen.
template-cut = Schnitt
template-valley = Talfalz
template-mountain = Bergfalz
template-both = Wechselfalz
template-glued = geklebt
template-tiles = Kacheln: eine von zweien an der Punktlinie schneiden, Ringe auf Ringe legen, zusammenkleben.
template-shows = Seite { $page } von { $pages } der Schablonen in wahrer Größe. Teile: { $parts }. Linien von 100 mm und 4 Zoll zum Prüfen des Drucks.

## Das Probestück
coupon-title = Probestück für eine Maschine
coupon-shows = Das Probestück: Marken, Streifen in einem Schlitz, Quadrate, Streifen mit Rillen, glatte Streifen, und die Buchstaben A bis I, K und L
coupon-before = Das Probestück schneiden
coupon-words = Ein Stück zeigt, was die Maschine tut. Einmal für jeden Karton und jedes Werkzeug schneiden, messen und aufschreiben.
coupon-step-card = Den Karton der Alben nehmen. Seine Laufrichtung liegt längs des aufrechten Streifens mit Rillen, E, soweit sie bekannt ist: die Streifen K und L zeigen sie.
coupon-step-scale = Die Schneidedatei laden. Das Programm muss den Bogen in seiner wahren Größe zeigen. Keine Größe ändern.
coupon-step-cut = Die Maschine zuerst zeichnen, dann rillen, zuletzt schneiden lassen.
coupon-step-wait = Den Bogen liegen lassen, bis alles geschnitten ist. Noch nichts herausdrücken.
coupon-measure = Messen
coupon-step-marks = A: zwischen den langen Marken messen, von links nach rechts und von unten nach oben, auf 0,1 mm.
coupon-step-strips = B: die zehn Streifen herausnehmen. An einem Lineal zusammenschieben und die ganze Reihe messen.
coupon-step-slot = B: den Schlitz, aus dem die Streifen kamen, an seiner langen Seite messen.
coupon-step-square = C: das kleine Quadrat zurück in sein Loch legen. Es hat in beiden Richtungen die Werkzeugbreite als Spiel.
coupon-judge = Beurteilen
coupon-step-fold = D und E: jede Rille falzen, die mit einem V als Talfalz, die mit einem M als Bergfalz, einmal ganz herum.
coupon-step-clean = D und E: auf jedem Streifen die erste Nummer notieren, die als Talfalz sauber ist, und die erste, die es als Bergfalz ist: gerade, ohne Riss, ohne Fasern. 0 notieren, wo es keine ist.
coupon-step-free = F: auf jedes Quadrat drücken. Das erste notieren, das an seiner Ecke ohne Riss frei kommt.
coupon-step-sharp = G: die Ecken ansehen. Das Quadrat mit den schärfsten notieren. Ohne Schleppmesser entfällt das.
coupon-step-held = H: den Bogen anheben. Das erste Teil notieren, das fest hängt und sich noch sauber herausdrücken lässt.
coupon-step-read = I: sehen, welche Wörter lesbar sind. Keine kleineren zeichnen.
coupon-step-hang = K und L: jeden glatten Streifen an der Tischkante flach unter ein Lineal legen, so dass 90 mm überstehen. Messen, wie weit sein freies Ende herabhängt, auf den Millimeter. Wenden, wieder messen, und die Mitte von beiden notieren.
coupon-boxes = Hier eintragen, dann in die Datei measured.json
coupon-head-letter = Bei
coupon-head-what = Was
coupon-head-read = Gelesen
coupon-head-field = In der Datei
coupon-box-across = Marken von links nach rechts, mm
coupon-box-up = Marken von unten nach oben, mm
coupon-box-strips = Reihe der zehn Streifen, mm
coupon-box-slots = Schlitz, mm
coupon-box-valley = Erste Nummer mit sauberem Talfalz
coupon-box-mountain = Erste Nummer mit sauberem Bergfalz
coupon-box-score = Nummer, die am besten gefällt, nur wenn es eine andere ist
coupon-box-overrun = Nummer des ersten Quadrats, das frei kam
coupon-box-trail = Nummer des schärfsten Quadrats
coupon-box-nick = Nummer des ersten Teils, das hielt
coupon-box-hang = Freies Ende hängt herab um, mm
coupon-ladders = Wofür die Nummern stehen, in mm
coupon-head-number = Nummer
coupon-head-score = D, E: Rille
coupon-head-overrun = F: Überlauf
coupon-head-trail = G: Nachlauf
coupon-head-nick = H: ungeschnitten
coupon-after = Die Maschinendatei machen
coupon-step-write = Das Gelesene statt null in measured.json eintragen. Was nicht gemessen wurde, bleibt null.
coupon-step-save = Das Programm daraus die Maschinendatei machen lassen: coupon --measured measured.json --save { $save }
coupon-step-save-from = Das Programm daraus die neue Maschinendatei machen lassen. Alles Übrige bleibt wie in der Datei, mit der dieses Stück gemacht ist: coupon --cutter { $cutter } --measured measured.json --save { $save }
coupon-step-again = Stimmt laut Programm der Maßstab nicht, das an der Maschine oder in ihrem Programm beheben und neu schneiden.
