### Was fishmeasure sagt, auf Deutsch. Die Kennungen, Fälle und Angaben sind die von en.ftl;
### dort steht, was sie bedeuten.

## Forms: how figures, days and lists are written

day-format = dd.MM.yyyy
list-or = { $first } oder { $last }
list-and = { $first } und { $last }
span = { $value } ({ $low } bis { $high })
span-low = { $low } (wahrscheinlich { $value })
span-high = { $high } (wahrscheinlich { $value })
percent = { $value } %
percent-past-all = über 999 %
fingerlings-sold = { $case ->
    [us] { $count } Stück je lb, { $thousand } lb je tausend
   *[metric] { $count } Stück je kg, { $thousand } kg je tausend
}
share-up-to = bis { $high }
share-likely = { $high } (wahrscheinlich { $value })

## Units

unit-kg-per-day = kg am Tag
unit-lb-per-day = lb am Tag
unit-m3-per-day = m³ am Tag
unit-gal-per-day = gal am Tag
unit-l-per-min = L/min
unit-gal-per-min = gal/min
unit-kg-per-m3 = kg/m³
unit-lb-per-ft3 = lb/ft³
unit-mg-per-l = mg/L
unit-g-per-kg = g/kg
unit-percent = %
unit-min = min
unit-h = h
unit-g-per-h = g/h
unit-deg-c = °C
unit-deg-f = °F
unit-kg = kg
unit-lb = lb
unit-mm = mm
unit-in = in
unit-m3 = m³
unit-m2 = m²
unit-ft2 = ft²
unit-l = L
unit-gal = gal
unit-g = g
unit-oz = oz
unit-m = m
unit-ft = ft

## base: parts of sentences

in-photo = { $photo }: { $told }

system-reason = { $name ->
    [ENOENT] Datei oder Ordner nicht vorhanden
    [EACCES] Zugriff verweigert
    [EPERM] Vorgang nicht erlaubt
    [EEXIST] Datei ist schon vorhanden
    [EISDIR] ist ein Ordner
    [ENOTDIR] ist kein Ordner
    [EINVAL] ungültige Angabe
    [EFBIG] Datei zu groß
    [ENOSPC] kein Platz mehr auf dem Datenträger
    [EDQUOT] Speicherkontingent überschritten
    [EROFS] Dateisystem nur zum Lesen
    [ENAMETOOLONG] Dateiname zu lang
    [EMFILE] zu viele offene Dateien
    [EIO] Ein-/Ausgabefehler
   *[other] { $told }
}

wanted = { $case ->
    [number] eine Zahl
    [whole-number] eine ganze Zahl
    [true-or-false] true oder false
    [text] Text
    [no-nul] Text ohne NUL-Zeichen
    [unicode] gültiger Unicode-Text
    [uuid] eine UUID
    [day] ein Datum
    [date] ein Datum (2026-05-02)
    [time-of-day] eine Uhrzeit
    [time] eine Uhrzeit (06:30)
    [zoneless] eine Uhrzeit ohne Zeitzone
    [moment] ein Zeitpunkt mit seiner Zeitzone
    [list] eine Liste
    [object] ein Objekt
    [array] Listen von Zahlen der Form { $shape }
    [choice] eines von { $choices }
    [yes-no] yes oder no
    [known-text] von der Form 120,80,940,85=300
    [whole] eine ganze Zahl von { $least } bis { $most }
   *[home] der Ordner einer hier bekannten Person
}

field-wanted = muss { $wanted } sein, nicht { $given }

field-limit = { $word ->
    [ge] muss mindestens { $limit } sein, nicht { $given }
    [gt] muss mehr als { $limit } sein, nicht { $given }
    [le] darf höchstens { $limit } sein, nicht { $given }
   *[lt] muss weniger als { $limit } sein, nicht { $given }
}

field-limit-day = { $word ->
    [ge] darf nicht vor dem { DAY($limit_on) } liegen, nicht { $given }
    [gt] muss nach dem { DAY($limit_on) } liegen, nicht { $given }
    [le] darf nicht nach dem { DAY($limit_on) } liegen, nicht { $given }
   *[lt] muss vor dem { DAY($limit_on) } liegen, nicht { $given }
}

field-length = { $word ->
    [max_length] darf höchstens { $limit } lang sein, nicht { $length }
   *[min_length] muss mindestens { $limit } lang sein, nicht { $length }
}

field-needed = , nötig

field-range = { " " }von { $low } bis { $high }

field-kind = { $case ->
    [object] Objekt mit { LIST($names) }
    [choice] { LIST($names, between: " oder ") }
    [list] Liste von ({ $each })
    [uuid] Kennung
    [date] Datum
    [time] Uhrzeit
    [date-time] Datum und Uhrzeit
    [boolean] true oder false
    [number] Zahl
    [integer] ganze Zahl
   *[string] Text
}

field-missing = { $fields ->
    [one] fehlt
   *[other] fehlen
}

field-unknown = ist hier nicht bekannt{ $case ->
    [near] ; ist { $near } gemeint?
   *[far] {""}
}

field-other = { $told }

field-beside = steht neben { $other }

figure-outside = { $value } liegt nicht zwischen { $low } und { $high }

figure-outside-named = { $name } { $value } liegt nicht zwischen { $low } und { $high }

figures-must-rise = diese müssen ansteigen: { LIST($names) }

the-day = der Tag

day-outside = muss zwischen { DAY($first_on) } und { DAY($last_on) } liegen, nicht { DAY($given_on) }

aerator-needs = von { $name } muss über 0 sein, damit sich sagen lässt, { $case ->
    [gas] was sein Gas einträgt
    [battery] wie lange sein Akku reicht
   *[cylinder] wie lange seine Flasche reicht
}

species-slip = { $case ->
    [lengths] max_length_mm muss über min_length_mm liegen
    [standard] die Standardlänge kann nicht über der Gabellänge liegen
   *[dome] das Optimum einer Kuppelkurve muss unter ihrer höchsten Temperatur liegen
}

entry-slip = { $case ->
    [nothing-learned] fehlt: nichts wurde gelernt, weder Gewichte noch Höhen
    [which-taken-back] fehlt: welcher Eintrag wird zurückgenommen?
    [count-or-bulk] fehlt: geben Sie es an, oder bulk_weight_kg und mean_weight_g
    [count-and-weight] fehlt, und weight_kg auch
    [one-group] einer Einheit müssen als eine Gruppe angegeben werden
    [itself] ist der Eintrag selbst
    [same-unit] ist die Einheit, in der die Fische schon sind
    [outside-weights] liegt nicht zwischen mean_weight_low_g und mean_weight_high_g
    [outside-conditions] muss zwischen condition_factor_low und condition_factor_high liegen
    [unit-empty] der Einheit ist leer
    [cohort-empty] der Charge ist leer
    [months] muss 12 Werte haben, einen für das ganze Jahr oder keinen
    [withdrawal] fehlt: geben Sie es an, oder withdrawal_degree_days, wie Etikett oder Tierarzt sagen
   *[no-figure] fehlt: es ist keine Angabe da
}

entry-kind = muss eines von { LIST($kinds) } sein

net-slip = { $case ->
    [only-counted] sind gezählt, aber es gibt weder Gewicht noch Foto noch Länge
    [photo-twice] nennen ein Foto zweimal
    [lengths-and-photos] stehen neben Fotos: geben Sie eines von beiden an
    [net-and-gross] steht neben gross_g: geben Sie eines von beiden an
   *[tare-alone] steht ohne Bruttogewicht da
}

sample-slip = { $case ->
    [not-toml] das ist kein gültiges TOML: { $told }
    [nested] die Listen darin sind zu tief verschachtelt
    [digits] eine Zahl darin hat Tausende von Stellen
    [nets] ist hier nicht bekannt; ist net gemeint?
    [units] ist in { LIST($names, last: "and") } angegeben
   *[no-net] fehlt: ein [[net]] für jeden Kescher
}

net-label = Kescher { $number }

net-labelled = Kescher { $number } ({ $label })

net-lengths = sind { $lengths }, aber es sind { $fish_count } Fische

net-tare = ist { AMOUNT($tare_g) }, aber das Bruttogewicht ist { AMOUNT($gross_g) }

fish-too-heavy = ist { AMOUNT($weight_g, decimals: 0) } je Fisch, mehr als { AMOUNT($limit_g, decimals: 0) };
    prüfen Sie die Einheit

fish-too-light = ist { AMOUNT($weight_g) } je Fisch, weniger als { AMOUNT($limit_g, decimals: 4) };
    prüfen Sie die Einheit

too-many-digits = eine Zahl mit Tausenden von Stellen

record-word = { $what ->
    [unit] Einheit
    [cohort] Charge
    [entry] Eintrag
    [photo] Foto
    [sample] Probe
    [device] Gerät
    [lens] Objektiv
    [species] Art
    [page] Seite
    [file] Datei
   *[other] { $what }
}

record-word-first = { $what ->
    [unit] Einheit
    [cohort] Charge
    [photo] Foto
    [sample] Probe
   *[other] { $what }
}

## base: errors of records

failed =
    .meaning = Aus dem genannten Grund lässt sich keine Zahl angeben.

bad-field = { $field } { STOP($reason) }
    .advice = Berichtigen Sie es.
    .meaning = Ein Datensatz hat ein unbrauchbares, unbekanntes oder fehlendes Feld.

## base: errors of the book and its files

bad-entry = Das Bestandsbuch kann das nicht aufnehmen: { $field } { STOP($reason) }
    .advice = Berichtigen Sie es und senden Sie es noch einmal.
    .meaning = Eine Einheit, eine Charge oder ein Eintrag hat ein unbrauchbares oder fehlendes Feld.

unknown-record = Im Bestandsbuch nicht vorhanden: { record-word } { $name }.
    .advice = { $case ->
        [listed] Das Bestandsbuch hat: { LIST($known) }.
       *[bare] {""}
    }
    .cli = { unknown-record.advice }{ $example ->
        [unit] { " " }So wird sie angelegt: fishmeasure book add unit { SHELL($name, key: "name") } kind=… volume_m3=… depth_m=…
        [cohort] { " " }So wird sie angelegt: fishmeasure book add cohort { SHELL($name, key: "name") } species_key=…
       *[other] {""}
    }
    .meaning = Eine Einheit, eine Charge oder ein Eintrag ist nicht im Bestandsbuch.

future-day = { DAY($on) } liegt in der Zukunft; heute ist der { DAY($today) }.
    .advice = Nicht eingetragen. Berichtigen Sie das Datum.
    .meaning = Was noch nicht war, lässt sich nicht eintragen.

no-book = Unter { $where } gibt es kein Bestandsbuch.
    .advice = Prüfen Sie den Pfad; mit der ersten Einheit entsteht ein neues Bestandsbuch.
    .cli = { no-book.advice } Siehe --book und FISHMEASURE_BOOK; 'fishmeasure book add unit' legt eine an.
    .meaning = Wo ein Bestandsbuch gelesen werden soll, ist keine Datei.

entry-conflict = Im Bestandsbuch steht unter der Kennung { $identity } schon etwas anderes: { record-word }
    (abweichend: { LIST($differing) }).
    .advice = Es wurde nichts geändert. Eine Berichtigung ist ein neuer Eintrag, der den alten ersetzt.
    .meaning = Dieselbe Kennung wurde schon mit anderem Inhalt gesendet.

both-said = { $first } { $then }

doubtful-entry = Noch nicht gespeichert: { $doubts }{ $case ->
        [slip] {" "}{ $slip }
       *[plain] {""}
    }
    .advice = Berichtigen Sie es, oder sagen Sie, dass es so stimmt.
    .cli = Berichtigen Sie es, oder setzen Sie --confirm dazu, wenn es so stimmt.
    .meaning = Ein Eintrag liegt weit von dem, was das Bestandsbuch erwartet, und wartet auf eine Antwort.

already-replaced = Der Eintrag { $identity } wurde schon durch { $by } ersetzt.
    .advice = Sehen Sie ihn sich an; ist er noch falsch, ersetzen Sie { $by }.
    .meaning = Jemand anderes hat den Eintrag vorher berichtigt oder zurückgenommen.

version-conflict = { record-word-first } { $name } wurde als Fassung { $sent_version } gesendet, das Bestandsbuch
    hat aber Fassung { $newest_version }.
    .advice = Lesen Sie Fassung { $newest_version }, ändern Sie dort, und senden Sie es als Fassung { $next_version }.
    .meaning = Jemand anderes hat die Einheit oder Charge vorher geändert.

name-taken = Diesen Namen gibt es im Bestandsbuch schon: { record-word } { $name }.
    .advice = Wählen Sie einen anderen.
    .meaning = Zwei Einheiten oder zwei Chargen können nicht gleich heißen.

book-newer = Dieses Bestandsbuch wurde von einem neueren fishmeasure geschrieben (Schema { $revision }).
    .advice = Aktualisieren Sie fishmeasure, um es zu lesen; das Bestandsbuch blieb, wie es war.
    .meaning = Das Bestandsbuch wurde von einer neueren Version des Programms geschrieben.

book-unreadable = { $case ->
        [server] Der Server kann sein Bestandsbuch nicht öffnen.
       *[here] { $where } lässt sich nicht als Bestandsbuch öffnen: { $reason }.
    }
    .advice = Prüfen Sie Pfad oder Adresse, den freien Platz und die Rechte zum Lesen und Schreiben.
    .meaning = Die Datei oder Adresse ist kein Bestandsbuch oder nicht erreichbar.

book-damaged = { $case ->
        [server] Das Bestandsbuch des Servers ist beschädigt.
       *[here] Das Bestandsbuch { $where } ist beschädigt: { $reason }.
    }
    .advice = Behalten Sie die Datei. Spielen Sie eine Sicherung daneben ein; ein Export rettet vielleicht den Rest.
    .cli = { book-damaged.advice } Siehe 'fishmeasure restore' und 'fishmeasure book export'.
    .meaning = Die Datei war ein Bestandsbuch, und ein Teil davon ging verloren.

book-busy = Ein anderes Programm hielt das Bestandsbuch { $waited_s } Sekunden lang gesperrt.
    .advice = Es wurde nichts geschrieben. Versuchen Sie es noch einmal.
    .meaning = Ein anderes Programm hielt das Bestandsbuch zu lange gesperrt.

book-in-use = { $case ->
        [server] Ein laufender Server oder ein anderer Befehl hat das Bestandsbuch { $where } offen.
       *[restore] Über das Bestandsbuch { $where } wird gerade eine Sicherung eingespielt.
    }
    .advice = { $case ->
        [server] Es wurde nichts geändert. Beenden Sie ihn und spielen Sie dann die Sicherung ein: was inzwischen eingetragen wird, ginge verloren.
       *[restore] Starten Sie den Server, wenn das fertig ist.
    }
    .cli = { book-in-use.advice } { $case ->
        [server] Halten Sie 'fishmeasure serve' an.
       *[restore] Warten Sie auf 'fishmeasure restore'.
    }
    .meaning = Eine Sicherung lässt sich nicht unter einem laufenden Server einspielen, und keiner kann währenddessen starten.

book-write = { $case ->
        [server] Der Server konnte sein Bestandsbuch nicht schreiben.
       *[here] Das Bestandsbuch ließ sich nicht schreiben: { $reason }.
    }
    .advice = Von diesem Eintrag wurde nichts gespeichert. Schaffen Sie Platz oder reparieren Sie den Datenträger, und senden Sie ihn noch einmal.
    .meaning = Datenträger oder Server haben das Schreiben verweigert.

book-full = Das Bestandsbuch ließ sich nicht schreiben: der Datenträger ist voll.
    .advice = { book-write.advice }
    .meaning = Für das, was zu schreiben war, ist kein Platz.

import-file = { $where } lässt sich nicht einlesen: { STOP($reason) }
    .advice = Es wurde nichts eingelesen.
    .meaning = Eine einzulesende Datei ist nicht das, was das Bestandsbuch ausgibt.

backup = { $case ->
        [server] Ein Bestandsbuch auf PostgreSQL wird nicht von hier aus gesichert.
        [existing] { $where } gibt es schon.
       *[disk] { $where } lässt sich nicht lesen oder schreiben: { $reason }.
    }
    .advice = { $case ->
        [server] Sichern Sie das Bestandsbuch mit pg_dump und kopieren Sie danach den Ordner mit den Fotos.
        [existing] Es wurde nichts geändert. Wählen Sie einen anderen Ort.
       *[disk] Prüfen Sie den Pfad und den freien Platz; kein Bestandsbuch wurde geändert.
    }
    .cli = { $case ->
        [existing] Es wurde nichts geändert. Wählen Sie einen anderen Ort, oder spielen Sie eine Sicherung mit --force über ein Bestandsbuch ein; das alte bleibt daneben.
       *[other] { backup.advice }
    }
    .meaning = Eine Sicherung lässt sich nicht machen oder einspielen.

backup-damaged = { $name } ist keine vollständige Sicherung: { $reason }.
    .advice = Es wurde nichts geändert. Nehmen Sie eine andere Kopie oder eine ältere Sicherung.
    .meaning = Eine Sicherung ist nicht mehr, wie sie gemacht wurde.

no-backup = { $name } ist keine Sicherung eines Bestandsbuchs.
    .advice = Es wurde nichts geändert. Geben Sie eine Datei an, die als Sicherung gemacht wurde.
    .cli = { no-backup.advice } 'fishmeasure backup' macht eine.
    .meaning = Eine Datei ist gar keine Sicherung.

## base: errors of the command line

option-format = { $case ->
        [empty] { $option }: es wurde nichts angegeben.
       *[unread] { $option }: { QUOTED($given) } ist nicht lesbar.
    }
    .advice = Schreiben Sie es so: { $example }.
    .meaning = Der Text einer Option ist nicht lesbar.

bad-option = { $option } { $value } ist nicht { $wanted }.
    .advice = Berichtigen Sie es und führen Sie den Befehl noch einmal aus.
    .meaning = Eine Option oder ein Dateiname der Befehlszeile ist nicht brauchbar.

no-file = Es gibt keine Datei { $name }.
    .advice = Prüfen Sie Namen und Ordner.
    .meaning = Eine genannte Datei ist nicht da.

no-number = { QUOTED($given) } ist keine Zahl.
    .advice = Schreiben Sie Zahlen wie 1912 oder 12,5, mit einer Einheit, wo es eine andere ist: 4 lb 3 oz.
    .meaning = Was eingegeben wurde, ist keine Zahl oder hat eine unbekannte Einheit.

unclear-number = { QUOTED($given) } lässt sich auf zwei Arten lesen.
    .advice = Schreiben Sie { $whole } oder { $decimal }.
    .meaning = Was eingegeben wurde, lässt sich als zwei Zahlen lesen.

unknown-kind = Eine Art von Eintrag '{ $word }' gibt es im Bestandsbuch nicht.
    .advice = { $case ->
        [near] Ist { $near } gemeint?
       *[far] Es gibt: { LIST($known) }.
    }
    .meaning = Das Bestandsbuch kennt diese Art von Eintrag nicht.

unknown-code = Es gibt keinen Code '{ $word }'.
    .advice = { $case ->
        [near] Ist { LIST($near, last: "or") } gemeint?
       *[far] {""}
    }
    .cli = { $case ->
        [near] Ist { LIST($near, last: "or") } gemeint? 'fishmeasure explain' nennt alle.
       *[far] 'fishmeasure explain' nennt sie.
    }
    .meaning = Kein Problem und kein Fehler hat diesen Code.

command-line = { STOP($reason) }{ $case ->
        [near] { " " }Meinten Sie { LIST($near, last: "or") }?
       *[far] {""}
    }
    .advice = '{ $command } --help' zeigt die Optionen.
    .meaning = Ein Befehl bekam etwas, das er nicht annimmt, oder nicht, was er braucht.

data-file = { $given } ist keine Datei für Ergebnisse.
    .advice = Schreiben Sie --json ergebnis.json, oder --json - für den Bildschirm; ebenso --csv.
    .meaning = Was eine Datei für Ergebnisse nennen soll, ist eine andere Option, ein Foto oder eine Probe.

unknown-command = Es gibt keinen Befehl '{ $group } { $word }'.{ $case ->
        [near] { " " }Meinten Sie { LIST($near, last: "or") }?
       *[far] {""}
    }
    .advice = '{ $group } --help' nennt sie.
    .meaning = Diesen Befehl gibt es nicht.

report-write = { $where } lässt sich nicht schreiben: { $reason }.
    .advice = Schaffen Sie dort Platz, oder wählen Sie einen Ort, an den Sie schreiben dürfen.
    .meaning = Was ein Befehl ausgibt, lässt sich nicht an den gewünschten Ort schreiben.

result-file = { $where } lässt sich nicht für Ergebnisse verwenden: { $reason }.
    .advice = Schaffen Sie Platz oder wählen Sie eine andere Datei, und führen Sie den Befehl noch einmal aus: er macht dort weiter, wo er war.
    .meaning = Die Ergebnisse vieler Fotos lassen sich nicht in der Datei ablegen oder daraus lesen.

cluster-lost = Der Dask-Scheduler unter { $address } ist weg.
    .advice = Starten Sie ihn und führen Sie den Befehl noch einmal aus: er macht dort weiter, wo er war.
    .meaning = Der Scheduler eines Clusters verschwand, während Fotos vermessen wurden.

## base: errors of photos

bad-correction = Korrektur { $number } ist nicht möglich: { $reason }.
    .advice = Laden Sie das Foto neu und wiederholen Sie sie.
    .meaning = Die Korrektur eines Fotos von Hand ist nicht möglich.

not-an-image = { $case ->
        [reason] { $name } ist kein lesbares Bild ({ $reason }).
        [file] { $name } wurde nicht vermessen: { $reason }.
        [folder] { $name } wurde nicht vermessen: { $reason }.
       *[plain] { $name } ist kein lesbares Bild.
    }
    .advice = { $case ->
        [file] Prüfen Sie den Namen der Datei.
        [folder] Nennen Sie die Fotos darin.
       *[other] Senden Sie das Foto, wie das Telefon es gespeichert hat: JPEG, PNG, WebP oder HEIC.
    }
    .cli = { $case ->
        [folder] Nennen Sie die Fotos darin, oder nehmen Sie 'fishmeasure batch' für einen ganzen Ordner.
       *[other] { not-an-image.advice }
    }
    .meaning = Die Datei ist nicht da oder nicht lesbar.

too-large = { $case ->
        [upload] Der Upload ist größer als { NUMBER($limit_mb, decimals: 0) } MB.
        [request] Die Anfrage ist größer als { NUMBER($limit_mb, decimals: 0) } MB.
        [values] Die Anfrage enthält mehr als { $limit } Werte.
        [memory] Das Foto braucht mehr als die { NUMBER($limit_mb, decimals: 0) } MB Speicher, die der Server einem Foto gibt.
       *[photo] { $name } ist zu groß: { $size }, die Grenze ist { $limit }.
    }
    .advice = { $case ->
        [upload] Senden Sie weniger Fotos auf einmal, jedes wie vom Telefon gespeichert.
        [request] Senden Sie es in mehreren Teilen.
        [values] Senden Sie es in mehreren Teilen.
        [memory] Fotografieren Sie mit der normalen Einstellung des Telefons, und senden Sie es als JPEG.
       *[photo] Fotografieren Sie mit der normalen Einstellung des Telefons, nicht als Panorama oder Scan.
    }
    .meaning = Ein Foto überschreitet die Grenze in Bytes oder Pixeln, oder eine Anfrage ist zu groß.

too-small = { $name } hat nur { $width_px } x { $height_px } Pixel.
    .advice = Senden Sie das Originalfoto, keine Vorschau und keinen Ausschnitt.
    .meaning = Das Foto hat für jede Angabe zu wenige Pixel.

not-drawn = Von { $name } wurde kein Bild gezeichnet: mit { $width_px } x { $height_px } Pixeln ist es zu
    lang und schmal für lesbare Beschriftungen.
    .advice = Senden Sie das Foto, wie das Telefon es aufgenommen hat, keinen Streifen davon.
    .meaning = Das Foto ist zu lang und schmal für ein Bild mit eingezeichneten Fischen.

## base: errors of markers and lenses

lens-file = { $case ->
        [field] { $name } ist nicht als Objektivprofil brauchbar: { $field } { STOP($reason) }
       *[whole] { $name } ist nicht als Objektivprofil brauchbar: { STOP($reason) }
    }
    .advice = Erstellen Sie eines aus Fotos der gedruckten Objektivtafel.
    .cli = { lens-file.advice } 'fishmeasure lens' erstellt eines.
    .meaning = Die Datei ist kein Objektivprofil.

lens-photos = { $case ->
        [mixed] Diese Fotos stammen nicht von einer Kamera in einer Größe und ergeben kein Objektivprofil.
        [few] Die Objektivtafel ist in { $found } von { $given } Fotos gut zu sehen; nötig sind { $needed }.
        [misfit] Die Fotos der Tafel passen nicht zu einem Objektiv (Abweichung { NUMBER($rms_px, decimals: 1) } Pixel).
       *[alike] Die Fotos der Tafel sind zu ähnlich, um die Brennweite zu bestimmen.
    }
    .advice = { $case ->
        [mixed] Nehmen Sie Fotos von demselben Telefon, Objektiv und derselben Einstellung.
        [few] Machen Sie mehr Fotos der gedruckten Objektivtafel, flach und scharf.
        [misfit] Kleben Sie die Tafel auf etwas Ebenes, halten Sie das Telefon still, zoomen Sie nicht.
       *[alike] Neigen Sie das Telefon bei einigen um 20 bis 40 Grad zu jeder Seite.
    }
    .meaning = Die Fotos der Objektivtafel ergeben kein Objektivprofil.

no-marker = In { $name } ist kein Marker zu sehen, also gibt nichts den Maßstab.
    .advice = Legen Sie den gedruckten Bogen oder Marker flach neben die Fische, ganz im Bild und trocken, und fotografieren Sie noch einmal.
    .meaning = Es wurde kein gedruckter Marker gefunden oder keiner dieses Programms.

several-sheets = { $name } zeigt Marker { LIST($marker_ids) } mehr als einmal.
    .advice = Lassen Sie einen Bogen oder je eine Karte im Bild.
    .meaning = Derselbe Marker ist zweimal im Foto.

markers-disagree = Die Marker in { $name } passen nicht in eine Ebene (Abweichung
    { AMOUNT($rms_mm, decimals: 1) }).
    .advice = Nehmen Sie Marker eines Ausdrucks in einem Maßstab, und legen Sie alle flach auf die Fläche, auf der die Fische liegen.
    .meaning = Die Marker liegen bei ihren gedruckten Größen nicht in einer Ebene.

tilted = { $case ->
        [doubtful] { NUMBER($tilt_deg, decimals: 0) } Grad schräg aufgenommen; Längen sind weniger sicher.
       *[refused] { $name } wurde { NUMBER($tilt_deg, decimals: 0) } Grad schräg aufgenommen; über { NUMBER($limit_deg, decimals: 0) } ist keiner Länge zu trauen.
    }
    .advice = { $case ->
        [doubtful] Halten Sie das Telefon waagerecht über die Fische.
       *[refused] Halten Sie das Telefon waagerecht, senkrecht über die Fische.
    }
    .meaning = Schräg aufgenommen: mit größerem Fehler vermessen oder ab einer Grenze abgelehnt.

blurred = { $case ->
        [doubtful] Unscharf: eine Kante ist über etwa { AMOUNT($edge_mm, decimals: 0) } verwischt.
        [whole] Das Foto ist unscharf.
       *[refused] { $name } ist unscharf: eine Kante ist über etwa { AMOUNT($edge_mm, decimals: 0) } verwischt.
    }
    .advice = { $case ->
        [doubtful] Halten Sie das Telefon still, tippen Sie zum Scharfstellen auf den Fisch, wischen Sie das Objektiv ab.
       *[refused] Halten Sie das Telefon still, tippen Sie zum Scharfstellen auf den Fisch, sorgen Sie für mehr Licht, wischen Sie das Objektiv ab.
    }
    .meaning = Unscharf: mit größerem Fehler vermessen oder ab einer Grenze abgelehnt.

too-far = { $case ->
        [doubtful] Die Marker sind im Foto klein, der Maßstab ist daher weniger sicher.
       *[refused] Der Marker in { $name } ist nur { NUMBER($side_px, decimals: 0) } Pixel breit; nötig sind { NUMBER($limit_px, decimals: 0) }.
    }
    .advice = { $case ->
       *[refused] Gehen Sie näher heran, oder senden Sie das Foto in voller Größe.
    }
    .meaning = Der Marker ist im Foto klein: mit größerem Fehler vermessen oder abgelehnt.

known-distance = Die zwei Punkte in { $name } ergeben keinen Maßstab: sie liegen
    { NUMBER($distance_px, decimals: 0) } Pixel auseinander; nötig sind { NUMBER($limit_px, decimals: 0) }, beide im Foto,
    und eine Länge über 0 mm.
    .advice = Geben Sie zwei weit entfernte Punkte im Foto an und die Millimeter dazwischen.
    .meaning = Die zwei Punkte einer bekannten Strecke sind nicht brauchbar.

print-scale = Der Druckmaßstab { $reason }.
    .advice = Messen Sie die Prüfstrecke des Bogens und teilen Sie die mm durch 100: 0.97 bei 97 mm.
    .meaning = Kein Bogen ist in einem solchen Maßstab gedruckt.

## base: errors of samples

sample-file = { $case ->
        [place] Die Probe ist nicht brauchbar: { $place } { STOP($reason) }
       *[whole] Die Probe ist nicht brauchbar: { STOP($reason) }
    }
    .advice = Berichtigen Sie das; die README zeigt eine ganze Datei.
    .meaning = Die Probe ist nicht lesbar oder hat nicht den vorgesehenen Aufbau.

empty-sample = Kein Kescher hat ein Gewicht oder einen Fisch mit brauchbarer Länge.
    .advice = Wiegen Sie mindestens einen gezählten Kescher, oder fotografieren Sie seine Fische.
    .meaning = Kein Kescher hat ein Gewicht oder einen vermessenen Fisch.

length-weight-data = Es lässt sich keine Längen-Gewichts-Beziehung anpassen: { $reason }.
    .advice = Wiegen und messen Sie 20 bis 30 Fische einzeln, kleine und große.
    .meaning = An die einzelnen Längen und Gewichte lässt sich nichts anpassen.

heights = { $case ->
        [few] { $fish ->
            [one] Von 1 Fisch ist eine mit dem Maßstab gemessene Länge da
           *[other] Von { $fish } Fischen ist eine mit dem Maßstab gemessene Länge da
        }: nötig sind { $needed }, um die Höhe von Maulspitze und Schwanzgabel zu bestimmen.
        [off] Fisch { $fish } in { $photo } misst { AMOUNT($ruler_mm, decimals: 0) } am Maßstab und { AMOUNT($length_mm, decimals: 0) } nach dem Foto: mehr, als die Höhe von Maulspitze und Schwanzgabel erklären kann.
       *[untold] Diese { $fish } Fische sagen nicht, wie hoch Maulspitze und Schwanzgabel liegen. Sie sind { AMOUNT($thickness_mm, decimals: 0) } dick und aus { AMOUNT($camera_mm, decimals: 0) } aufgenommen: ihre Länge würde sich um { PERCENT($share, decimals: 1) } ändern, weniger, als Druck, Objektiv und Endpunkte sicher sind.
    }
    .advice = { $case ->
        [few] Fotografieren Sie noch einige Fische und messen Sie von jedem die Gabellänge.
        [off] Prüfen Sie die Nummer des Fisches, die abgelesene Länge und ob der Marker in seiner Größe gedruckt ist.
       *[untold] Fotografieren Sie aus größerer Nähe und dickere Fische, und messen Sie den Druckmaßstab.
    }
    .meaning = Längen am Maßstab sagen nicht, wie hoch Maulspitze und Schwanzgabel liegen.

plan = { $case ->
        [range] Das Mittel lässt sich mit { $fish_per_net } Fischen je Kescher nicht auf { $half_width_percent } % genau planen.
       *[reach] ± { $half_width_percent } % ist nicht zu erreichen: auch { $nets } Kescher ließen ± { NUMBER($reached_percent, decimals: 1) } %.
    }
    .advice = { $case ->
        [range] Geben Sie eine Breite über 0 und unter 100 % an und mindestens einen Fisch je Kescher.
       *[reach] Verlangen Sie ein weiteres Intervall, oder verringern Sie zuerst das Tropfwasser und den Fehler der Waage.
    }
    .meaning = Kein Probenplan leistet, was verlangt wurde.

sample-not-entered = Die Probe ist nicht ins Bestandsbuch eingetragen: Gewichte und Längen können nicht von
    denselben Fischen sein.
    .advice = Berichtigen Sie sie zuerst.
    .meaning = Eine Probe, deren Gewichte und Längen nicht von denselben Fischen sind, wird nicht eingetragen.

other-species = { $case ->
        [deeper] Diese Fische sind hochrückiger als { $species }: Körperhöhe { NUMBER($depth, decimals: 2) } der Länge, üblich sind { NUMBER($usual_depth, decimals: 2) }{ ASKED($others) }
        [slimmer] Diese Fische sind schlanker als { $species }: Körperhöhe { NUMBER($depth, decimals: 2) } der Länge, üblich sind { NUMBER($usual_depth, decimals: 2) }{ ASKED($others) }
       *[cohort] Die Probe ist von { $species }, die Charge { $cohort } von { $of_cohort }. Nicht eingetragen.
    }
    .advice = { $case ->
        [deeper] Sind sie von einer anderen Art, nennen Sie diese und messen Sie neu, denn die Gewichte wären die eines anderen Fisches; wenn nicht, prüfen Sie die Umrisse.
        [slimmer] Sind sie von einer anderen Art, nennen Sie diese und messen Sie neu, denn die Gewichte wären die eines anderen Fisches; wenn nicht, prüfen Sie die Umrisse.
       *[cohort] Sind die Fische { $of_cohort }, schreiben Sie species = "{ $of_cohort }" in die Probe und lassen Sie neu messen; sonst nennen Sie eine andere Charge.
    }
    .meaning = Die Fische sind hochrückiger oder schlanker als die genannte Art, oder eine Probe ist von einer anderen Art als ihre Charge.

sample-elsewhere = Diese Probe steht schon im Bestandsbuch, vom { DAY($day) } in { $unit }. Es wurde nichts geändert.
    .advice = Ist das falsch, berichtigen Sie den Eintrag.
    .cli = Ist das falsch: fishmeasure book correct { $identity } { $change }
    .meaning = Das Bestandsbuch hat die Probe unter einem anderen Tag oder in einer anderen Einheit.

sample-json = { $name } enthält kein JSON einer Probe.
    .advice = Geben Sie die Ergebnisse einer Probe als JSON an.
    .cli = So entsteht es: fishmeasure sample SAMPLE.toml --json DATEI.
    .meaning = Eine Datei, die das JSON einer Probe enthalten soll, enthält es nicht.

## base: errors of species

unknown-species = Eine Art "{ $name }" gibt es nicht.
    .advice = { $case ->
        [near] Ist { LIST($close, last: "or") } gemeint?
       *[far] Bekannt sind: { LIST($known) }. Für einen anderen Fisch geben Sie eine eigene Datei an, etwa mystock.toml.
    }
    .meaning = Keine Art heißt so.

species-file = { $case ->
        [key] Artdatei { $file_name }, { $key }: { STOP($reason) }
       *[whole] Artdatei { $file_name }: { STOP($reason) }
    }
    .advice = Berichtigen Sie die Datei; die README zeigt ihren Aufbau.
    .meaning = Eine Artdatei ist nicht lesbar oder hat nicht den vorgesehenen Aufbau.

## base: errors of stocking calculations

no-stock-figures = Für { QUOTED($species_key) } gibt es keine Zahlen zu Wachstum, Futter und Sauerstoff.
    .advice = Verwenden Sie eine von: { LIST($known) }.
    .meaning = Für die Art gibt es keine Zahlen zur Haltung.

outside-range = { $case ->
        [overflow] Diese Zahlen sind zu groß oder zu nahe an 0, um damit zu rechnen.
       *[other] { $name }: { $value }{ $unit } ist nicht möglich.
    }
    .advice = { $case ->
        [overflow] Geben Sie Zahlen wirklicher Fische und wirklichen Wassers an, in den Einheiten der Feldnamen.
        [least] Geben Sie mindestens { $low }{ $unit } an.
       *[range] Geben Sie einen Wert von { $low } bis { $high }{ $unit } an.
    }
    .meaning = Eine Angabe liegt außerhalb dessen, womit sich rechnen lässt.

no-samples = Es gibt keine Gewichtsprobe als Ausgangspunkt.
    .advice = Tragen Sie das Gewicht beim Besatz ein, oder nehmen Sie eine Kescherprobe.
    .meaning = Es gibt kein Gewicht als Ausgangspunkt.

weekly-harvest = Eine wöchentliche Ernte nimmt so viele Fische, so viele Kilogramm oder alle ab einer Größe.
    .advice = Geben Sie eines von den dreien an.
    .meaning = Eine wöchentliche Ernte ist weder Stückzahl noch Kilogramm noch Größe.

gain-not-known = Der Zuwachs von { AMOUNT($gain_kg, decimals: 1) } (Standardfehler
    { AMOUNT($sd_kg, decimals: 1) }) ist nicht signifikant von null verschieden, daher lässt sich kein Futterquotient angeben.
    .advice = Warten Sie auf mehr Wachstum, oder wiegen Sie an beiden Enden des Zeitraums mehr Kescher.
    .meaning = Der Zuwachs ist nicht signifikant von null verschieden: kein Futterquotient.

## husbandry: names of figures, limits, things and fish

quantity = { $key ->
    [water-temperature] Wassertemperatur
    [air-pressure] Luftdruck
    [altitude] Höhe über dem Meer
    [amplitude-of-the-wave] Amplitude der Jahreskurve
    [biomass] Biomasse
    [coefficient-of-variation] Variationskoeffizient
    [condition-factor] Korpulenzfaktor
    [date] Datum
    [days-ahead] Tage voraus
    [days-after-the-start] Tage nach dem Anfang
    [days-between-the-samples] Tage zwischen den Proben
    [days-of-feed] Tage mit Futter
    [days-until-the-date] Tage bis zum Datum
    [density-index] Dichteindex
    [flow-index] Durchflussindex
    [depth-of-the-diffuser] Tiefe des Belüfters
    [start-weight] Anfangsgewicht
    [end-weight] Endgewicht
    [feed-protein] Protein im Futter
    [feed] Futter
    [fish-a-week] Fische je Woche
    [gas-through-the-diffuser] Gas durch den Belüfter
    [harvest-of-a-week] Ernte einer Woche
    [hours] Stunden
    [inflow] Zulauf
    [its-standard-error] Standardfehler dazu
    [length] Länge
    [mean-weight] Mittelgewicht
    [nitrate-at-the-start] Nitrat am Anfang
    [number-of-fish] Zahl der Fische
    [number-of-groups-of-fish] Zahl der Fischgruppen
    [number-to-take] Zahl der zu entnehmenden Fische
    [oxygen-above-the-caution-level] Sauerstoff über dem Warnwert
    [oxygen-at-the-start] Sauerstoff am Anfang
    [oxygen-level] Sauerstoffgehalt
    [plant-bed] Pflanzenbeet
    [power-of-the-paddlewheel] Leistung des Schaufelradbelüfters
    [salinity] Salzgehalt
    [share-of-fish-taken-out] Anteil entnommener Fische
    [size] Größe
    [standard-error] Standardfehler
    [standard-oxygen-transfer-rate] Standard-Sauerstoffeintrag
    [surface] Oberfläche
    [time-from-the-first-to-the-last-harvest] Zeit von der ersten bis zur letzten Ernte
    [total-ammonia-nitrogen] Gesamtammonium-Stickstoff
    [warmest-day-of-the-year] wärmster Tag des Jahres
    [warmest-forecast-temperature] höchste vorhergesagte Temperatur
    [water-exchange] Wasseraustausch
    [water-volume] Wasservolumen
    [weight-added] zugesetztes Gewicht
    [weight-of-the-dead] Gewicht der verendeten Fische
    [weight-of-the-fingerlings] Gewicht der Setzlinge
    [weight-removed] entnommenes Gewicht
    [wind] Wind
   *[other] { $name }
}

limit-name = { $case ->
        [density-index] Dichteindex
        [flow-index] Durchflussindex
        [density] Besatzdichte
        [oxygen] Sauerstoff
       *[ammonia] Ammoniak
    }

fish = { $case ->
        [own] die Fische dieser Einheit
        [food] Speisefische
       *[any] Fische
    }

nothing = {""}

as-said = { $text }

## husbandry: the water now

now = { $case ->
        [act] Handeln Sie jetzt. { $reason }
        [watch] Beobachten Sie das Wasser. { $reason }
        [unknown] Der Zustand des Wassers ist nicht bekannt. { $reason }
       *[good] Das Wasser ist nach den Messungen gut für { LIST($fish, last: "and") }.
    }

do-now = { STEPS($steps) }

step = { $case ->
        [more-air] mehr Luft oder Sauerstoff geben
        [less-gas] Gas ablassen: den Zulauf über eine Stufe oder durch eine Kolonne fallen lassen, Sauerstoffzufuhr abstellen und nach Luft suchen, die eine Pumpe ansaugt
        [cooler] kühleres Wasser zuführen und die Einheit beschatten
        [warmer] langsam wärmeres Wasser zuführen
        [no-feed] nicht füttern
        [no-handling] nicht keschern, beproben, sortieren oder umsetzen
        [exchange] Wasser gegen gutes Wasser austauschen
        [buffer] die Alkalinität nach und nach erhöhen, mit Natriumhydrogencarbonat oder Kalksplitt, und den pH verfolgen: Ammoniak schadet mehr, wenn er steigt
        [measure] bald wieder messen und eintragen
       *[professional] wird es nicht besser, den Fischgesundheitsdienst rufen
    }

read-when = { $case ->
        [days] vor { $days } Tagen gemessen
        [yesterday] gestern gemessen
        [yesterday-at] gestern um { $at } gemessen
        [today-at] heute um { $at } gemessen
       *[today] heute gemessen
    }

own-limit = Für diese Einheit festgelegter Grenzwert.

reading-keeps = { $case ->
        [its-day] Eine Messung gilt für ihren Tag: übliche Praxis, ohne Quelle.
        [next-day] Eine Messung gilt für ihren Tag und den nächsten: übliche Praxis, ohne Quelle.
       *[days] Eine Messung gilt noch { $days } Tage danach: übliche Praxis, ohne Quelle.
    }

oxygen-low = { $case ->
        [act] Sauerstoff { AMOUNT($read_mg_per_l) } ({ $when }), unter { AMOUNT($limit_mg_per_l) }, wo folgende verenden können: { $whose }.
       *[watch] Sauerstoff { AMOUNT($read_mg_per_l) } ({ $when }), unter { AMOUNT($limit_mg_per_l) }; so viel sollten haben: { $whose }.
    }
    .advice = { $do_now }
    .meaning = Das Wasser jetzt: zu wenig Sauerstoff; beobachten oder handeln.

oxygen-supersaturated = Sauerstoff { AMOUNT($read_mg_per_l) } ({ $when }),
    { AMOUNT($saturation_percent, decimals: 0) } Sättigung, über { AMOUNT($limit_percent) }: in den Fischen können sich Gasblasen bilden.
    .advice = { $do_now }
    .meaning = Das Wasser jetzt: zu viel Gas; beobachten oder handeln.

oxygen-unknown = { $case ->
        [never] Sauerstoff wurde nie gemessen. Messen Sie ihn jetzt und tragen Sie ihn ein.
       *[old] Sauerstoff wurde zuletzt { $when } ({ AMOUNT($do_mg_per_l) }); das ist zu lange her, um das Wasser gut zu nennen. Messen Sie ihn jetzt und tragen Sie ihn ein.
    }
    .meaning = Sauerstoff wurde in letzter Zeit nicht gemessen.

temperature-high = { $case ->
        [act] Das Wasser hat { AMOUNT($water_deg_c) } ({ $when }), zu warm: ab { AMOUNT($limit_deg_c) } verenden manche ({ $whose }).
       *[watch] Das Wasser hat { AMOUNT($water_deg_c) } ({ $when }), über { AMOUNT($limit_deg_c) }; bis dahin fressen sie gut und vertragen es, angefasst zu werden ({ $whose }).
    }
    .advice = { $do_now }
    .meaning = Das Wasser jetzt: zu warm; beobachten oder handeln.

temperature-low = { $case ->
        [act] Das Wasser hat { AMOUNT($water_deg_c) } ({ $when }), zu kalt: ab { AMOUNT($limit_deg_c) } abwärts verenden manche ({ $whose }).
       *[watch] Das Wasser hat { AMOUNT($water_deg_c) } ({ $when }), unter { AMOUNT($limit_deg_c) }; bis dahin fressen sie gut und vertragen es, angefasst zu werden ({ $whose }).
    }
    .advice = { $do_now }
    .meaning = Das Wasser jetzt: zu kalt; beobachten oder handeln.

temperature-unknown = { $case ->
        [assumed] Über die Wassertemperatur in { $unit } ist nichts bekannt; angenommen werden { AMOUNT($temperature_deg_c) }. Tragen Sie Messungen ein oder die Temperatur der Einheit für jeden Monat.
        [never] Die Wassertemperatur wurde nie gemessen. Messen Sie sie jetzt und tragen Sie sie ein.
       *[old] Die Wassertemperatur wurde zuletzt { $when } ({ AMOUNT($temperature_deg_c) }); das ist zu lange her, um das Wasser gut zu nennen. Messen Sie sie jetzt und tragen Sie sie ein.
    }
    .meaning = Für die Einheit ist keine Wassertemperatur bekannt.

ammonia-read = Gesamtammonium { AMOUNT($tan_mg_per_l) } als N bei pH { $ph } und
    { AMOUNT($water_deg_c, digits: 3) } ({ $when })

ammonia-high = { $case ->
        [unionised] { $base }, das sind { AMOUNT($unionised_mg_per_l, digits: 2) } Ammoniak (NH3), mehr als die { AMOUNT($limit_mg_per_l) }, die vertragen werden ({ $whose }).
        [acute] { $base }, über dem akuten Kriterium von { AMOUNT($limit_mg_per_l, digits: 2) }.
       *[chronic] { $base }, über dem chronischen Kriterium von { AMOUNT($limit_mg_per_l, digits: 2) }, das auch Muscheln schützt und daher für Fische streng ist.
    }
    .advice = { $do_now }
    .meaning = Das Wasser jetzt: zu viel Ammoniak; beobachten oder handeln.

ammonia-unknown = Ammoniak ist nicht bekannt, und in Wasser, das zu den Fischen zurückkommt, kann es unbemerkt steigen. Messen Sie Gesamtammonium (TAN) und pH.
    .meaning = Ammoniak ist nicht bekannt, wo es das sein muss.

nitrite-high = { $case ->
        [read] Nitrit { AMOUNT($read_mg_per_l) } als N ({ $when }), über { AMOUNT($limit_mg_per_l, digits: 2) } ({ $whose }), in Wasser mit { AMOUNT($chloride_mg_per_l) } Chlorid ({ $chloride_when }).
       *[guessed] Nitrit { AMOUNT($read_mg_per_l) } als N ({ $when }), über { AMOUNT($limit_mg_per_l, digits: 2) } ({ $whose }), in Wasser mit 10 mg/L Chlorid; Ihres wurde nicht gemessen, und weniger Chlorid macht Nitrit schädlicher.
    }
    .advice = { $do_now }
    .meaning = Das Wasser jetzt: zu viel Nitrit; beobachten oder handeln.

nitrate-high = Nitrat { AMOUNT($read_mg_per_l) } als N ({ $when }), über { AMOUNT($limit_mg_per_l, digits: 2) } ({ $whose }).
    .advice = { $do_now }
    .meaning = Das Wasser jetzt: zu viel Nitrat.

alkalinity-low = Alkalinität { AMOUNT($read_mg_per_l) } als CaCO3 ({ $when }), unter { AMOUNT($limit_mg_per_l) }: der Biofilter braucht sie auf, dann fällt der pH und Ammonium steigt.
    .advice = { $do_now }
    .meaning = Das Wasser jetzt: zu wenig Puffer für einen Biofilter; beobachten.

ph-high = { $case ->
        [act] Der pH ist { $ph } ({ $when }), über { $limit }; das schadet ({ $whose }).
       *[watch] Der pH ist { $ph } ({ $when }), über { $limit }, außerhalb des guten Bereichs ({ $whose }).
    }
    .advice = { $do_now }
    .meaning = Das Wasser jetzt: zu alkalisch; beobachten oder handeln.

ph-low = { $case ->
        [act] Der pH ist { $ph } ({ $when }), unter { $limit }; das schadet ({ $whose }).
       *[watch] Der pH ist { $ph } ({ $when }), unter { $limit }, außerhalb des guten Bereichs ({ $whose }).
    }
    .advice = { $do_now }
    .meaning = Das Wasser jetzt: zu sauer; beobachten oder handeln.

not-judged = { $case ->
        [ammonia-reading] Ammoniak nicht beurteilt: in letzter Zeit nicht gemessen: { LIST($lacking, last: "and") }.
        [ammonia-temperature] Ammoniak nicht beurteilt: die Wassertemperatur ist nicht bekannt.
        [ammonia-salt] Ammoniak in Salzwasser wird nach den Zahlen für Süßwasser beurteilt, die dafür streng sind.
        [salt] Ob die Fische { AMOUNT($salinity_g_per_kg) } Salz vertragen, wird nicht beurteilt.
        [gas] Ob das Wasser zu viel Gas enthält, wird nicht beurteilt: seine Temperatur ist nicht bekannt.
        [dawn] Der Sauerstoff in einem Teich ist vor Sonnenaufgang am niedrigsten; messen Sie auch dann.
        [chloride] Nitrit wird beurteilt wie in Wasser mit 10 mg/L Chlorid, das in letzter Zeit nicht gemessen wurde; bei weniger vertragen Fische weniger Nitrit.
        [nitrite] Nitrit nicht beurteilt: in letzter Zeit nicht gemessen.
        [alkalinity] Alkalinität nicht beurteilt: in letzter Zeit nicht gemessen.
       *[alkalinity-elsewhere] Alkalinität nicht beurteilt: das geschieht nur, wo Wasser durch einen Filter zu den Fischen zurückkommt.
    }

note-alkalinity = 20 mg/L als CaCO3, übliche Praxis, ohne Quelle; Ammonium in Lachskreisläufen war umso niedriger, je höher sie war, bei 10, 70 und 200 mg/L: Summerfelt et al. 2015 Aquac Eng 65:46-54, Zusammenfassung

## husbandry: feed, growth, limits

outside-source-range = { $name }: { NUMBER($value, atMost: 4) } { $unit } liegt außerhalb des Bereichs der Quelle von { $low } bis { $high } { $unit }; nehmen Sie die Zahl als groben Anhalt.
    .meaning = Eine Berechnung liegt außerhalb des Bereichs ihrer Quelle.

too-warm-to-feed = Bei { AMOUNT($water_deg_c, decimals: 1) } wird für diese Art keine Ration angegeben; gefüttert wird sie bis { AMOUNT($limit_deg_c) }.{ $deadly ->
        [yes] { " " }In solchem Wasser sind Fische dieser Art schon verendet.
       *[no] {""}
    } Füttern Sie nicht mehr, achten Sie auf den Sauerstoff, und füttern Sie wieder, wenn das Wasser abgekühlt ist.
    .meaning = Das Wasser ist zu warm zum Füttern.

too-cold-to-feed = Bei { AMOUNT($water_deg_c, decimals: 1) } wird für diese Art keine Ration angegeben; gefüttert wird sie ab { AMOUNT($limit_deg_c) }.{ $deadly ->
        [yes] { " " }In solchem Wasser sind Fische dieser Art schon verendet.
       *[no] {""}
    } Füttern Sie nicht mehr, und lassen Sie die Fische in Ruhe, bis das Wasser wärmer ist.
    .meaning = Das Wasser ist zu kalt zum Füttern.

no-growth-temperature = An { $idle_days } der nächsten { $days } Tage liegt das Wasser nach der Vorhersage außerhalb von { NUMBER($low_deg_c) } bis { AMOUNT($high_deg_c) }, wo diese Art frisst; für sie wird kein Wachstum gerechnet. Wiegen Sie eine Probe, wenn die Fische wieder fressen.
    .meaning = Ein Teil der Vorhersage ist für Wachstum zu kalt oder zu warm.

no-stocking-temperature = Das Wasser hat { AMOUNT($water_deg_c, decimals: 1) }; die Fische hier fressen von { NUMBER($low_deg_c) } bis { AMOUNT($high_deg_c) }. Setzen Sie keine zu, fassen Sie die Fische nicht an, und fragen Sie wieder, wenn das Wasser in diesem Bereich ist.
    .meaning = Das Wasser ist zu kalt oder zu warm für neuen Besatz.

sample-disagrees = { $case ->
        [above] Die Probe vom { DAY($on) } liegt { NUMBER($standard_errors, decimals: 1) } Standardfehler über dem, was die früheren erwarten lassen.
       *[below] Die Probe vom { DAY($on) } liegt { NUMBER($standard_errors, decimals: 1) } Standardfehler unter dem, was die früheren erwarten lassen.
    }
    .advice = Prüfen Sie die Wägung, die Zählung und welche Fische gekeschert wurden.
    .meaning = Eine Probe stimmt nicht mit dem Bestandsbuch überein.

over-limit = { $limit }: { PERCENT($used) } der Grenze sind erreicht, es können { PERCENT($used_at_most) } sein.
    .advice = Füttern Sie weniger, verstärken Sie, was begrenzt, oder halten Sie weniger Fische.
    .meaning = Ein Grenzwert der Einheit ist wahrscheinlich überschritten.

near-limit = { $limit }: { PERCENT($used) } der Grenze sind erreicht, es können { PERCENT($used_at_most) } sein.
    .advice = Füttern Sie weniger, verstärken Sie, was begrenzt, oder halten Sie weniger Fische.
    .meaning = Ein Grenzwert der Einheit kann am unsicheren Ende überschritten sein.

ammonia-over-limit = Ammoniak (NH3-N) kann { AMOUNT($most_mg_per_l, decimals: 3) } erreichen, über dem Grenzwert von { NUMBER($limit_mg_per_l) }.
    .advice = Stellen Sie das Füttern ein, tauschen Sie Wasser aus und messen Sie wieder.
    .meaning = Ammoniak (NH3) liegt über dem Grenzwert der Art.

ammonia-over-criterion = Gesamtammonium-Stickstoff kann { AMOUNT($most_mg_per_l, atMost: 2) } sein, über den { AMOUNT($criterion_mg_per_l, atMost: 2) }, die bei pH { $ph } und { AMOUNT($water_deg_c) } anhalten dürfen (US EPA 2013, das auch Muscheln schützt).
    .advice = Füttern Sie weniger, tauschen Sie Wasser aus und messen Sie wieder.
    .meaning = Gesamtammonium liegt über dem, was bei diesem pH anhalten darf.

nitrate-over-limit = Nitrat kann schon jetzt über dem Grenzwert von { AMOUNT($limit_mg_per_l) } als N liegen.
    .advice = Tauschen Sie mehr Wasser aus, füttern Sie weniger, oder setzen Sie mehr Pflanzen ein.
    .meaning = Nitrat liegt vielleicht über seinem Grenzwert.

nitrate-limit-ahead = Nitrat kann in { $days } Tagen über dem Grenzwert von { AMOUNT($limit_mg_per_l) } als N liegen.
    .advice = Tauschen Sie mehr Wasser aus, füttern Sie weniger, oder setzen Sie mehr Pflanzen ein.
    .meaning = Nitrat kann seinen Grenzwert in der betrachteten Zeit erreichen.

## husbandry: where figures come from

note-feed-chart = Ration nach der Forellentabelle von Leitritz & Lewis 1980 (Calif. Fish Bull. 164): Trockenfutter, zwischen den Feldern linear.
note-feeding-ends = Gefüttert wird bis { AMOUNT($end_deg_c) }
note-ration-by-growth = Ration = erwartetes Wachstum x Futterquotient, keine Tabelle dieser Art.
note-feed-conversion = Futterquotient { $fcr }
note-feed-weighed = Gegebenes Futter gilt als genau gewogen.
note-tgc = TGC { $tgc }
note-published-tgc = Veröffentlichter TGC { $tgc }
note-growth = { $case ->
        [published] Wachstum nach der Literatur: es gibt nur eine Probe. { $start }
       *[fitted] Wachstum an { $samples } Proben dieser Charge angepasst, ausgehend vom veröffentlichten Wert. { $start }
    }
note-unionised-share = Anteil von Ammoniak (NH3): Emerson et al. 1975, Süßwasser; pH auf 0,1.
note-unionised-in-salt = In Salzwasser ist der Anteil von Ammoniak (NH3) kleiner; das ist die sichere Seite.
note-ammonia-limit = Grenzwert { AMOUNT($limit_mg_per_l) } Ammoniak-Stickstoff (NH3-N)
note-ammonia-criteria = Kriterien für Gesamtammonium: US EPA 2013 (822-R-13-001); das chronische ist ein 30-Tage-Mittel und schützt auch Muscheln, die weniger vertragen als Fische.
note-nitrate-limit = Grenzwert { AMOUNT($limit_mg_per_l) } Nitrat-Stickstoff
note-feed-nitrogen = Stickstoff des Futters: 0,092 bis 0,128 seines Proteins, Timmons & Ebeling auf einer fremden Seite; beide Regeln sind beibehalten.
note-plant-uptake = Die Aufnahme der Pflanzen ist aus dem Futter berechnet, das ein volles, wachsendes Beet trägt; ein Aufnahmewert wurde nicht gefunden.
note-feed-per-bed = Futter je Beetfläche: FAO Technical Paper 589 und Rakocy 2007, die sich bis zum Doppelten unterscheiden.
note-density-limit = Grenzwert der Besatzdichte { AMOUNT($limit_kg_per_m3) }
note-own-density = Besatzdichte wie für die Einheit festgelegt.
note-density-index = Dichteindex 0,5 lb/ft3 je Zoll: Piper et al. 1982; SRAC 222 bis 1,0.
note-flow-index = Durchflussindex 1,0 lb/(in gpm): SRAC 222 nennt 0,5-1,0, Piper et al. 1982 1,5 bei 10 °C. Die gesondert aufgestellte Sauerstoffbilanz ist der bessere Anhalt.
note-feed-for-ammonia = Futter bis zum Grenzwert für Ammoniak bei pH { $ph }, dem strengeren von dem der Art und dem Kriterium. { $criteria } { $nitrogen }
kept-oxygen = { $case ->
        [own] wie für die Einheit festgelegt
        [rule] { AMOUNT($saturation_percent) } Sättigung, { $source }
       *[caution] der Warnwert der empfindlichsten Art
    }
note-oxygen-supply = { $case ->
        [read] Sauerstoffversorgung bei { AMOUNT($kept_mg_per_l, atMost: 3) } ({ $why }) gegen gefütterte Fische, deren Verbrauch auch nach Messungen.
       *[published] Sauerstoffversorgung bei { AMOUNT($kept_mg_per_l, atMost: 3) } ({ $why }) gegen gefütterte Fische.
    }
note-oxygen-use = Sauerstoffverbrauch nüchterner Fische
note-fed-factor = Der Faktor { $factor } nach dem Füttern
note-drawn-up = Bilanz bei { AMOUNT($kept_mg_per_l) }; Warnwert { NUMBER($caution_mg_per_l) }
note-still-surface = Oberfläche ruhigen Wassers: die Quellen widersprechen sich, 0 bis 0,6 m/d; alles ist beibehalten.
note-inflow-saturation = Zulauf ohne Messung gilt als zu { PERCENT($share) } gesättigt, übliche Praxis ohne Quelle.
note-alpha-beta = Belüfter in Fischwasser: alpha 0,8 und beta 0,95, wenn nichts anderes angegeben ist, sind übliche Praxis ohne Quelle.
note-recirculated = Kreislaufwasser gilt als zu 95 % gesättigt zurückkommend. Ein untergetauchter Filter verbraucht selbst Sauerstoff (4,57 g je g Ammonium-Stickstoff, nach der Stöchiometrie), was nicht gerechnet ist: messen Sie, was zurückkommt.
note-gas-transfer = { $case ->
        [fine] Gas nach Litern: { AMOUNT($each_percent) } seines Sauerstoffs werden je Meter Tiefe aufgenommen (feine Blasen), untere Enden von Reinwasserversuchen in EPA 1989, aus dem Gedächtnis und nicht an der Quelle geprüft.
        [medium] Gas nach Litern: { AMOUNT($each_percent) } seines Sauerstoffs werden je Meter Tiefe aufgenommen (mittlere Blasen), untere Enden von Reinwasserversuchen in EPA 1989, aus dem Gedächtnis und nicht an der Quelle geprüft.
       *[coarse] Gas nach Litern: { AMOUNT($each_percent) } seines Sauerstoffs werden je Meter Tiefe aufgenommen (grobe Blasen), untere Enden von Reinwasserversuchen in EPA 1989, aus dem Gedächtnis und nicht an der Quelle geprüft.
    }
note-paddlewheel = Schaufelradbelüfter: { $kg_per_kwh } kg Sauerstoff je kWh, Mittel von 1,1 bis 3,0 in Boyd 1998, aus dem Gedächtnis und nicht an der Quelle geprüft.

## husbandry: what if something stops

stop = { $case ->
        [power] Stromausfall
        [pump] Pumpe fällt aus
        [intake] Einlauf oder Rechen verstopft, oder Zulauf unterbrochen
        [one-blower] { CAPITAL($device) } fällt aus
        [blower] Alle Belüfter fallen aus
        [device] Nur { $device } fällt aus
       *[oxygen] Sauerstoffvorrat leer
    }
duration = { $case ->
        [day] 24 h oder mehr
        [hours] { $hours } h { $minutes } min
       *[minutes] { $minutes } min
    }
time = { $case ->
        [at-once] sofort
        [never] nicht binnen 24 h
        [sure] nach { $low }
        [likely-never] { $soon ->
            [yes] vielleicht sofort (wahrscheinlich nicht binnen 24 h)
           *[no] frühestens nach { $low } (wahrscheinlich nicht binnen 24 h)
        }
        [perhaps-never] { $soon ->
            [yes] vielleicht sofort (wahrscheinlich { $middle }, oder gar nicht binnen 24 h)
           *[no] nach { $low } (wahrscheinlich { $middle }, oder gar nicht binnen 24 h)
        }
       *[span] { $soon ->
            [yes] vielleicht sofort (wahrscheinlich { $middle }, höchstens { $high })
           *[no] nach { $low } (wahrscheinlich { $middle }, höchstens { $high })
        }
    }
outage-level = { $case ->
        [caution] Warnwert ({ AMOUNT($level_mg_per_l) }) { $time }
       *[critical] kritisch ({ AMOUNT($level_mg_per_l) }) { $time }
    }
outage-line = { ALTERNATIVES($names) }: { $caution }; { $critical }.
alternatives = { $first }; oder { $other }
measure = { $case ->
        [fresh-water] { AMOUNT($flow_l_per_min, decimals: 0) } Frischwasser
        [fewer-fish] { PERCENT($share) } weniger Fische
        [fasted] Fische seit dem Vortag nüchtern
       *[backup] { LIST($devices, last: "and") }
    }
backup-unknown = { $store ->
        [cylinder] solange die Flasche reicht: nicht eingetragen
       *[battery] solange der Akku reicht: nicht eingetragen
    }
backup-lasts = { $case ->
        [span] { $store ->
            [cylinder] die Flasche reicht { NUMBER($least_h, atMost: 3) } bis { AMOUNT($most_h, atMost: 3) }
           *[battery] der Akku reicht { NUMBER($least_h, atMost: 3) } bis { AMOUNT($most_h, atMost: 3) }
        }
       *[one] { $store ->
            [cylinder] die Flasche reicht { AMOUNT($most_h, atMost: 3) }
           *[battery] der Akku reicht { AMOUNT($most_h, atMost: 3) }
        }
    }
backup-lasting = { LIST($lasting, between: "; ") }
gain = { $case ->
        [nothing] nichts Sicheres
       *[likely] { $gain } (wahrscheinlich { $likely })
    }
measure-line = { $case ->
        [unknown] { $name }: { $note }
        [noted] { $name } ({ $note }): { $gain }
       *[bare] { $name }: { $gain }
    }
note-use-held = Der Verbrauch der Fische gilt als gleichbleibend, während der Sauerstoff fällt: die sichere Seite.
note-cloudy-pond = Ein trüber oder erdiger Teich verbraucht weit mehr Sauerstoff als seine Fische.
note-caution-level = Warnwert { AMOUNT($level_mg_per_l) }
note-critical-level = Kritischer Wert { AMOUNT($level_mg_per_l) }
chart-interval = { $percent }-%-Intervall
chart-expected = erwartet
chart-hours-after = Stunden nach dem Ausfall
chart-oxygen = gelöster Sauerstoff, mg/L
chart-level = { $case ->
        [caution] { $never ->
            [yes] Warnwert { AMOUNT($level_mg_per_l) }: 24 h oder mehr
           *[no] Warnwert { AMOUNT($level_mg_per_l) }: { $low } bis { $high }
        }
       *[critical] { $never ->
            [yes] kritisch { AMOUNT($level_mg_per_l) }: 24 h oder mehr
           *[no] kritisch { AMOUNT($level_mg_per_l) }: { $low } bis { $high }
        }
    }
chart-outage = { $name }, bei { AMOUNT($start_mg_per_l, decimals: 1) }, { AMOUNT($water_deg_c) }, { AMOUNT($fish_kg, decimals: 0) } Fisch

## husbandry: cautions

caution-estimate = Eine Schätzung ist keine Messung. Handeln Sie nach dem unsicheren Ende des Intervalls: der höchsten Biomasse beim Sauerstoff, der niedrigsten beim Verkauf.
caution-oxygen = Sauerstoff und Ausfallzeiten sind Planungszahlen. Messen Sie den gelösten Sauerstoff mit einem Messgerät, und halten Sie einen erprobten Notbetrieb bereit.
caution-electrical = Lassen Sie Elektroarbeiten in Wassernähe von einer zugelassenen Elektrofachkraft nach den örtlichen Vorschriften ausführen, mit Fehlerstromschutzschalter.
caution-handling = Fassen Sie Fische mit nassen Händen an, kurz außerhalb des Wassers und in kühlem Wasser; keine Proben bei Hitze oder wenig Sauerstoff.
caution-tub = Fische in einer Wiegewanne: Minuten, nicht länger; Wasser aus ihrer eigenen Einheit, belüftet; beobachten Sie sie, und hören Sie auf, wenn sie nach Luft schnappen oder kippen. Nicht mehr als 0,1 kg Fisch je Liter (Bachforellen von 76 g ertrugen das 14 h mit Sauerstoff bei 10 °C; in warmem Wasser die Hälfte), und binnen 5 Minuten zurück (übliche Praxis, ohne Quelle).
caution-anaesthetics = Verwenden Sie nur bei Ihnen zugelassene Betäubungsmittel, nach Anweisung eines Tierarztes, und halten Sie die Wartezeit ein.
caution-slaughter = Betäuben und schlachten Sie tierschutzgerecht und nach dem örtlichen Recht.
caution-fasting = Lassen Sie Fische vor dem Schlachten nicht länger als 54 Tagesgrade nüchtern (Tage mal °C): 4 Tage bei 13 °C, 6 bei 9 °C.
caution-dead-fish = Tot gefundene Fische sind zunächst kein Lebensmittel: Ursache und Zeitpunkt sind unbekannt. Befolgen Sie das örtliche Lebensmittelrecht.
caution-permits = Einleitung, Entweichen und nicht heimische Arten: maßgeblich sind die örtlichen Genehmigungen.

## species

sourced = { $case ->
        [stand-in] { $what }: { $source } (von einer anderen Art, in Ermangelung eigener Werte).
        [memory] { $what }: { $source } (aus dem Gedächtnis, nicht an der Quelle geprüft).
        [practice] { $what }: { $source } (übliche Praxis, ohne Quelle).
       *[seen] { $what }: { $source }.
    }

species-name = { $key ->
    [arctic-char] Seesaibling
    [atlantic-salmon] Atlantischer Lachs
    [barramundi] Barramundi
    [bluegill] Blauer Sonnenbarsch
    [brook-trout] Bachsaibling
    [brown-trout] Bachforelle
    [channel-catfish] Getüpfelter Gabelwels
    [common-carp] Karpfen
    [grayling] Äsche
    [lake-trout] Amerikanischer Seesaibling
    [nile-tilapia] Niltilapia
    [perch] Flussbarsch
    [pikeperch] Zander
    [rainbow-trout] Regenbogenforelle
    [sea-bass] Wolfsbarsch
    [silver-perch] Silberbarsch
    [tench] Schleie
   *[other] { $name }
}
asked = : { LIST($names, last: "or") }?

origin = { $case ->
        [computed] aus gelesenen Zahlen berechnet: { $source }
        [stand-in] von einer anderen Art, in Ermangelung eigener Werte: { $source }
        [memory] aus dem Gedächtnis, nicht an der Quelle geprüft: { $source }
        [practice] übliche Praxis, ohne Quelle: { $source }
       *[seen] an der Quelle gelesen: { $source }
    }

tested = { $case ->
        [real] An { $photos } echten Fotos geprüft. { $result }
       *[not] Nicht an Fotos validiert.{ $result }
    }

lw-figure = { $size } { $value } { $unit }

lw-data = { $case ->
        [one-size] ohne Fisch { $fish } sind alle übrigen gleich groß
        [few] es sind { $fish } Fische; nötig sind { $needed }
        [few-outlines] { $fish } der Fische auf den Fotos lassen sich nach ihrem Umriss wiegen; nötig sind { $needed }
        [wrong] Fisch { $fish }: { $figure }
        [no-net] kein Kescher ist gewogen und zugleich mit brauchbaren Umrissen fotografiert
       *[one-length] die Fische sind alle gleich lang, daher lässt sich keine Steigung anpassen
    }

depth-beside-length = { $case ->
        [helps] Mit der Körperhöhe wären es { AMOUNT($error_percent, decimals: 1) }: die Höhe hilft hier.
       *[idle] Mit der Körperhöhe wären es { AMOUNT($error_percent, decimals: 1) }: die Höhe zu messen lohnt hier nicht.
    }

source-own-fit = Eigene Anpassung an { $fish } einzeln gewogene Fische. { $note }
source-own-level = Niveau von { $fish } eigenen Fischen, b wie veröffentlicht. { $note }
source-own-nets = Sammelwägung von { $weighed } eigenen Fischen, Umrisse von { $fish } auf { $photos } Fotos. { $note }
source-own-heights = { $fish } eigene Fische auf { $photos } Fotos, Gabellängen am Maßstab gelesen. { $note }
source-own-body = { $fish } eigene Fische auf { $photos } Fotos, einzeln gewogen. { $note }
source-own-book = { $entries ->
        [one] Eigene Fische, fotografiert und gewogen, im Buch am { DAY($newest) }. { $note }
       *[other] Eigene Fische, fotografiert und gewogen, { $entries } Einträge des Buchs bis { DAY($newest) }. { $note }
    }

no-such-key = { $case ->
        [near] diesen Schlüssel gibt es nicht; ist { $near } gemeint?
        [inherited] diesen Schlüssel gibt es in der Datei eines eigenen Bestands nicht; die Art hat ihn
       *[far] diesen Schlüssel gibt es nicht
    }

file-reason = { $case ->
        [not-text] das ist kein Text in UTF-8
       *[not-toml] das ist kein gültiges TOML: { $told }
    }

## outlook

aeration-short = In { $unit } wurde Sauerstoff mit { AMOUNT($read_mg_per_l, atMost: 3) } gemessen, weniger, als Fische dieses Gewichts von dem übrig ließen, was Zulauf und Belüfter nach den Einträgen bringen. Daher wird kein Platz für mehr Fische angegeben.
    .advice = Sehen Sie nach, ob die Belüfter laufen und bringen, was eingetragen ist, und messen Sie wieder.
    .meaning = Es wurde weniger Sauerstoff gemessen, als Zulauf und Belüfter übrig ließen.

aerator-unknown = Was { $device } in { $unit } bringt, ist nicht bekannt und wird daher nicht gerechnet.
    .advice = Tragen Sie die Liter Luft je Minute mit der Tiefe des Belüfters ein, oder den Standardeintrag aus dem Datenblatt.
    .meaning = Es ist nicht bekannt, was ein Belüfter bringt.

biofilter-unknown = { $case ->
        [ph] Der pH in { $unit } wurde in letzter Zeit nicht gemessen. Davon hängt ab, wie viel Ammonium die Fische vertragen und wie viel mehr Futter der Filter bewältigt; es wird kein Platz für mehr Fische angegeben.
       *[size] Wie viel mehr Futter der Filter von { $unit } bewältigt, ist nicht bekannt; daher wird kein Platz für mehr Fische angegeben.
    }
    .advice = { $case ->
        [ph] Messen Sie den pH und tragen Sie ihn ein.
       *[size] Tragen Sie für die Einheit ein, für wie viel Futter am Tag der Biofilter ausgelegt ist.
    }
    .meaning = Wie viel mehr Futter der Filter eines Kreislaufs bewältigt, ist nicht bekannt.

pond-use-unknown = Wie viel Sauerstoff Wasser und Boden von { $unit } verbrauchen, ist nicht eingetragen; in einem Teich ist es oft mehr, als die Fische verbrauchen. Daher wird kein Platz für mehr Fische angegeben.
    .advice = Messen Sie den Sauerstoff in der Abenddämmerung und vor Sonnenaufgang, und tragen Sie für die Einheit ein, um wie viel mg/L er in einer Stunde fällt, abzüglich des Verbrauchs der Fische.
    .cli = { pond-use-unknown.advice } So wird es eingetragen: fishmeasure book change unit { SHELL($unit) } water_respiration_mg_per_l_h=…
    .meaning = Was Wasser und Boden eines Teichs an Sauerstoff verbrauchen, ist nicht bekannt.

no-oxygen-supply = Für { $unit } sind weder Zulauf noch Belüfter eingetragen; daher lässt sich der Sauerstoff nicht berechnen, und es wird kein Platz für mehr Fische angegeben.
    .advice = Tragen Sie die Liter Frischwasser je Minute ein oder die Belüfter.
    .cli = { no-oxygen-supply.advice } So wird es eingetragen: fishmeasure book change unit { SHELL($unit) } inflow_l_per_min=… oder fishmeasure book change unit { SHELL($unit) } aeration='{ "[{\"name\": \"air pump\", \"gas_l_per_min\": …, \"diffuser_depth_m\": …}]" }'
    .meaning = Es ist nichts eingetragen, was einer Einheit Sauerstoff bringt.

withdrawal-period = { $case ->
        [until] Kein Speisefisch vor dem { DAY($ends_on) }: { $product } wurde gegeben.
       *[never] Kein Speisefisch: { $product } wurde gegeben, und das Wasser erreicht die Tagesgrade nicht binnen drei Jahren.
    }
    .advice = Behalten Sie die Fische bis dahin; maßgeblich sind Etikett und Tierarzt.
    .meaning = Die Wartezeit eines Arzneimittels ist nicht abgelaufen.

too-late-to-order = Heute gelieferte Fische dieser Größe würden am { DAY($on) } { AMOUNT($reached_g, digits: 3) } wiegen, nicht { AMOUNT($plate_g) }.
    .advice = Bestellen Sie größere, oder ernten Sie später.
    .meaning = Setzlinge dieser Größe können am gewünschten Tag nicht Portionsgröße haben.

due-feed = Heute { AMOUNT($ration_kg, digits: 2) } füttern{ $fed_kg ->
    [0] .
   *[other] ; { AMOUNT($fed_kg, digits: 2) } sind gegeben.
}

due-sample = { $case ->
        [never] { $cohort } wurde nie beprobt.
   *[late] { $cohort } wurde zuletzt am { DAY($on) } beprobt.
}

due-plate-size = Mindestens { $fish_count } von { $cohort } haben { AMOUNT($plate_g) }.

no-weight = Von { $cohort } ist kein Gewicht bekannt.
    .advice = Nehmen Sie eine Kescherprobe.
    .meaning = Das Gewicht der Fische einer Charge ist nicht bekannt.

load-incomplete = Fische unbekannten Gewichts in { $unit } fehlen bei Futter und Grenzwerten; die Grenzen sind näher als gezeigt.
    .advice = Nehmen Sie eine Kescherprobe.
    .meaning = Bei Futter und Grenzwerten fehlen Fische unbekannten Gewichts.

oxygen-use-differs = Nach den Messungen verbrauchen die Fische in { $unit } { NUMBER($measured, atMost: 3) } g/h Sauerstoff, nach ihrem Gewicht { NUMBER($modelled, atMost: 3) }.
    .advice = Prüfen Sie den eingetragenen Zulauf, das Messgerät oder den Test und die Zahl der Fische; messen Sie wieder.
    .meaning = Messungen und Gewicht der Fische widersprechen sich beim Sauerstoffverbrauch.

ammonia-use-differs = Nach den Messungen scheiden die Fische in { $unit } { NUMBER($measured, atMost: 3) } g/Tag Ammonium aus, nach ihrem Gewicht { NUMBER($modelled, atMost: 3) }.
    .advice = Prüfen Sie den eingetragenen Zulauf, das Messgerät oder den Test und die Zahl der Fische; messen Sie wieder.
    .meaning = Messungen und Futter widersprechen sich bei der Ammoniumausscheidung.

note-weighed-use = { $case ->
        [oxygen] Sauerstoffverbrauch der Fische: { NUMBER($modelled, atMost: 3) } g/h nach dem Modell, { NUMBER($measured, atMost: 3) } nach Messungen und Zulauf; nach ihren Fehlern gewichtet { NUMBER($weighed, atMost: 3) }. Eine Messung ist ein Augenblick: ihr Fehleranteil für Stunde und Mahlzeit, 15 % bei Sauerstoff und 25 % bei Ammonium, ist ohne Quelle.
       *[ammonia] Ammoniumausscheidung der Fische: { NUMBER($modelled, atMost: 3) } g/Tag nach dem Modell, { NUMBER($measured, atMost: 3) } nach Messungen und Zulauf; nach ihren Fehlern gewichtet { NUMBER($weighed, atMost: 3) }. Eine Messung ist ein Augenblick: ihr Fehleranteil für Stunde und Mahlzeit, 15 % bei Sauerstoff und 25 % bei Ammonium, ist ohne Quelle.
    }

figure-from = { $case ->
        [read-on] gemessen am { DAY($on) }
        [expected] erwartet
        [read] { $read }, nicht höher als die berechneten { AMOUNT($other_mg_per_l, decimals: 1) }
        [lower-than-read] berechnet, niedriger als { AMOUNT($other_mg_per_l, decimals: 1) } ({ $read })
       *[worked-out] berechnet
    }

note-usual-cv = Streuung der Gewichte: CV 0,25, typisch für unsortierte Forellen (Rasmussen & Ostenfeld); keine Probe ergab einen Wert.
note-unseen-losses = Unbemerkte Verluste (1 % im Monat) und Toleranzen, die kein Eintrag nennt, sind übliche Praxis, ohne Quelle.
note-water = { $case ->
        [oxygen] Wasser, Sauerstoff: { $source }
        [temperature] Wasser, Temperatur: { $source }
        [ammonia] Wasser, Ammoniak: { $source }
        [nitrite] Wasser, Nitrit: { $source }
        [ph] Wasser, pH: { $source }
        [alkalinity] Wasser, Alkalinität: { $source }
       *[nitrate] Wasser, Nitrat: { $source }
    }

## render: an outlook in sentences

outlook-heading = { $unit }: Ausblick am { DAY($on) }

outlook-section = { $case ->
        [weights] 1  Wie schwer, wie weit gestreut
        [kilograms] 2  Wie viel Kilogramm
        [growth] 3  Wachstum und Ernte
        [feed] 4  Futter
        [limits] 5  Grenzen und Platz
        [outages] 6  Wenn heute Nacht etwas ausfällt
       *[grading] 7  Sortieren und Korpulenz
    }

outlook-no-answer = Noch keine Antwort; siehe die Warnungen.

of-cohort = { $cohort }:

outlook-weight = { $case ->
        [unknown] { $cohort }: Gewicht nicht bekannt. Nehmen Sie eine Kescherprobe.
        [usual] { $cohort }: Mittel { AMOUNT($mean_g, digits: 3) }; CV { NUMBER($cv, digits: 2) }, üblicher Wert: neun von zehn zwischen { NUMBER($low_g, digits: 3) } und { AMOUNT($high_g, digits: 3) }. { CAPITAL($source) }.
       *[known] { $cohort }: Mittel { AMOUNT($mean_g, digits: 3) }; CV { NUMBER($cv, digits: 2) }: neun von zehn zwischen { NUMBER($low_g, digits: 3) } und { AMOUNT($high_g, digits: 3) }. { CAPITAL($source) }.
    }

outlook-biomass = { $case ->
        [unknown] { $cohort }: { NUMBER($fish, decimals: 0, all: 1) } Fische, Gewicht nicht bekannt. { CAPITAL($source) }.
       *[known] { $cohort }: { NUMBER($fish, decimals: 0, all: 1) } Fische, { AMOUNT($biomass_kg, digits: 3) }. { CAPITAL($source) }.
    }

outlook-total = Zusammen { AMOUNT($biomass_kg, digits: 3) }; höchstens { AMOUNT($density_kg_per_m3, digits: 3) } in { AMOUNT($volume_m3, digits: 3) }.

outlook-growth = { $case ->
        [tgc] { NUMBER($growth, digits: 2) } % am Tag in den nächsten 30 Tagen (TGC { NUMBER($tgc, digits: 3) }).
       *[bare] { NUMBER($growth, digits: 2) } % am Tag in den nächsten 30 Tagen.
    }

outlook-plate-size = Portionsgröße, { AMOUNT($size_g, digits: 3) }, erreichen: die ersten { $first }; die Hälfte { $half }; fast alle { $nearly_all }.

reached-on = { $case ->
        [later] später als in zwei Jahren
        [now] jetzt ({ DAY($day) })
        [open] { DAY($day) } ({ DAY($earliest) } bis später als in zwei Jahren)
       *[span] { DAY($day) } ({ DAY($earliest) } bis { DAY($latest) })
    }

outlook-harvests = { $case ->
        [one] Wird geerntet, dann die größten Fische, so viele, wie am unteren Ende des Bekannten Portionsgröße haben: { $harvest }.
       *[choice] Zur Wahl, kein Plan: jede Zeile ist die einzige Ernte; genommen werden die größten Fische, so viele, wie am unteren Ende des Bekannten Portionsgröße haben.
    }

outlook-choice = { $case ->
        [first] Entweder { $harvest },
        [next] oder { $harvest },
       *[last] oder { $harvest }.
    }

outlook-harvest = am { DAY($day) }: { NUMBER($ready_low, decimals: 0) } bis { NUMBER($ready_high, decimals: 0) } Fische mit Portionsgröße (wahrscheinlich { NUMBER($ready, decimals: 0) }); die { $taken } größten sind { AMOUNT($taken_kg, digits: 3) } und lassen { NUMBER($left, decimals: 0) } Fische übrig, { AMOUNT($left_kg, digits: 3) }

outlook-grading = Das kleinste Zehntel liegt unter { AMOUNT($small_g, digits: 3) } (etwa { AMOUNT($small_mm, decimals: 0) } Gabellänge), das größte über { AMOUNT($large_g, digits: 3) } ({ AMOUNT($large_mm, decimals: 0) }). { $advice }

outlook-grade = { $case ->
        [yes] Sie streuen wie unsortierte Fische: Sortieren lohnt sich.
       *[no] Sie liegen nah beieinander: Sortieren hat Zeit.
    }

outlook-condition = { $case ->
        [unknown] Korpulenzfaktor: keine Probe ergab einen.
        [low] Korpulenzfaktor { NUMBER($factor, digits: 3) }, veröffentlicht { NUMBER($published, decimals: 2) } bei dieser Länge: niedrig. Prüfen Sie Futter, Gesundheit und Besatzdichte.
        [high] Korpulenzfaktor { NUMBER($factor, digits: 3) }, veröffentlicht { NUMBER($published, decimals: 2) } bei dieser Länge: hoch. Eine kleinere Ration genügt vielleicht.
       *[normal] Korpulenzfaktor { NUMBER($factor, digits: 3) }, veröffentlicht { NUMBER($published, decimals: 2) } bei dieser Länge: normal.
    }

outlook-feed = { $case ->
        [wait] { $wait } In den letzten sieben Tagen gegeben: { AMOUNT($given_kg, digits: 2) }.
       *[ration] Heute { AMOUNT($today_kg, digits: 2) }, kommende Woche { AMOUNT($week_kg, digits: 2) }; in den letzten sieben Tagen gegeben { AMOUNT($given_kg, digits: 2) }.
    }

outlook-conversion = Futterquotient seit { DAY($since) }: { NUMBER($biological, digits: 3) } biologisch, { NUMBER($economic, digits: 3) } wirtschaftlich ({ AMOUNT($given_kg, digits: 3) } gefüttert, { AMOUNT($gain_kg, digits: 3) } Zuwachs).

outlook-period-conversion = { $cohort }, vom { DAY($since) } bis { DAY($until) }: { AMOUNT($feed_kg, digits: 3) } gefüttert, { AMOUNT($gain_kg, digits: 3) } Zuwachs, Futterquotient { NUMBER($conversion, digits: 3) }, nach Proben, Futter und dem Üblichen zusammen.

limit-within = { $case ->
        [density-index] Dichteindex
        [flow-index] Durchflussindex
        [density] Besatzdichte
        [oxygen] Sauerstoff
       *[ammonia] Ammoniak
    }

outlook-used = { $limit } { SHARE($share) }

outlook-all-used = Erreicht: { LIST($used, between: "; ") }.

outlook-first = Zuerst erreicht: { $limit }; { $room }.

outlook-room = { $case ->
        [wait] kein Platz, solange das Wasser so ist
        [unknown] wie viel Platz für mehr ist, ist nicht bekannt
        [too-much] { AMOUNT($room_kg, digits: 2) } zu viel am unsicheren Ende
       *[room] Platz für { AMOUNT($room_kg, digits: 2) } mehr
    }

outlook-too-many = { $case ->
        [wait] Nach diesen Grenzen sind bis { DAY($until) } { $fish } Fische zu viel; nehmen Sie keine heraus, bevor das Wasser besser ist.
        [sure] Bis { DAY($until) } müssen { $fish } Fische weg sein, die ersten bis { DAY($first_on) } ({ $limit }, am unsicheren Ende).
       *[unsafe-end] Ab { DAY($first_on) } kann am unsicheren Ende eine Grenze überschritten sein ({ $limit }): bis zu { $fish } Fische müssten bis { DAY($until) } weg. Nehmen Sie vorher eine Kescherprobe, um es genauer zu wissen.
    }

outlook-fingerlings = { $case ->
        [read-first] Bis { DAY($until) } dürfen { $fish } Setzlinge zugesetzt werden ({ $species }, je { AMOUNT($each_g, digits: 3) }, { FINGERLINGS($each_g) }, zusammen { AMOUNT($in_all_kg, digits: 2) }); setzen Sie keine zu, bevor Temperatur und Sauerstoff gemessen sind.
       *[now] Bis { DAY($until) } dürfen { $fish } Setzlinge zugesetzt werden ({ $species }, je { AMOUNT($each_g, digits: 3) }, { FINGERLINGS($each_g) }, zusammen { AMOUNT($in_all_kg, digits: 2) }).
    }

outlook-ammonia = { $case ->
        [read] Ammoniak (NH3) bis { NUMBER($unionised_mg_per_l, digits: 2, end: "high") } mg/L als N, Grenzwert { AMOUNT($limit_mg_per_l) }
       *[unread] Ammoniak diese Woche nicht gemessen (TAN und pH)
    }

outlook-nitrate = { $case ->
        [not-reached] Nitrat { $course } mg/L als N in 60 Tagen, Grenzwert von { AMOUNT($limit_mg_per_l) } nicht erreicht
       *[reached] Nitrat { $course } mg/L als N in 60 Tagen, Grenzwert von { AMOUNT($limit_mg_per_l) } vielleicht in { $days } Tagen erreicht
    }

nitrate-course = { $case ->
        [falling] { NUMBER($begun_mg_per_l, digits: 2) }, fallend auf höchstens { NUMBER($most_mg_per_l, digits: 2) } (wahrscheinlich { NUMBER($likely_mg_per_l, digits: 2) })
        [likely-falling] { NUMBER($begun_mg_per_l, digits: 2) }, wahrscheinlich fallend auf { NUMBER($likely_mg_per_l, digits: 2) } (höchstens { NUMBER($most_mg_per_l, digits: 2) })
       *[rising] { NUMBER($begun_mg_per_l, digits: 2) }, steigend auf höchstens { NUMBER($most_mg_per_l, digits: 2) } (wahrscheinlich { NUMBER($likely_mg_per_l, digits: 2) })
    }

crop-bed = { $case ->
        [leafy] Beet mit Blattgemüse
        [fruiting] Beet mit Fruchtgemüse
        [nft] NFT-Rinnen
       *[raft] Floßbeet
    }

outlook-bed = das Futter versorgt { AMOUNT($area_m2, digits: 2) } ({ $bed })

outlook-outage-begins = Beginn bei { AMOUNT($start_mg_per_l, digits: 2) } ({ $start_from }) und { AMOUNT($water_deg_c, digits: 2) } ({ $water_from }).

outlook-taken-as-pumped = Frischwasser gilt als gepumpt, bei Stromausfall kommt also keines. Fließt es von selbst zu, geben Sie das bei der Einheit an.

outlook-bought = { $name }: was mindestens Zeit gewinnt: { LIST($bought, between: "; ") }.

outlook-hold = Um { $hours } Stunden zu überstehen, dürften es höchstens { AMOUNT($fish_kg, digits: 3) } Fisch sein; um den Warnwert zu halten, braucht es { AMOUNT($air_g_per_h, digits: 2) } Notbelüftung (Standardeintrag) oder { AMOUNT($water_l_per_min, digits: 2) } Frischwasser.

water-figure = { $case ->
        [oxygen] Sauerstoff
        [temperature] Temperatur
        [ammonia] Ammoniak
        [nitrite] Nitrit
        [ph] pH
        [alkalinity] Alkalinität
       *[nitrate] Nitrat
    }

must-wait = { $case ->
        [feeding] Nicht füttern, bevor das Wasser besser ist ({ $about }, siehe oben).
        [handling] Fische nicht keschern, beproben, sortieren oder umsetzen, bevor das Wasser besser ist ({ $about }, siehe oben).
       *[adding] Keine Fische zusetzen, bevor das Wasser besser ist ({ $about }, siehe oben).
    }

## render: plots, paper

outlook-sources = Quellen und Annahmen: { $notes }
outlook-sources-head = Quellen und Annahmen
outlook-cautions = Vorsicht
outlook-warnings = Warnungen
plot-mean-weight = Mittelgewicht, { unit-g }
plot-mean-of-a-fish = Mittelgewicht eines Fisches, { unit-g }
plot-weight = Gewicht, { unit-g }
plot-weight-of-a-fish = Gewicht eines Fisches, { unit-g }
plot-tick = { NUMBER($figure) }
plot-share = Anteil der Fische, %
plot-fish-in-each = Fische je { AMOUNT($step_g) }
plot-growth = Wachstum; Portionsgröße gestrichelt
plot-growth-so-far = Wachstum bisher und voraus
plot-weights-today = Gewichte heute, Portionsgröße (gestrichelt)
plot-weights-in-unit = Gewichte in der Einheit
plot-spread = { $case ->
        [thin] Gewichte: 9 von 10 Fischen (dünn),
       *[thick] die Hälfte (dick)
    }
plot-interval = { $cohort }, { $percent }-%-Intervall
plot-plate-size = Portionsgröße { AMOUNT($plate_g, decimals: 0) }
plot-no-fish = An diesem Tag keine Fische in dieser Einheit.
plot-used = erreicht, % der Grenze
plot-limits = Grenzen
plot-level = { $case ->
        [caution] Warnwert { $level }
       *[critical] kritisch { $level }
    }
plot-oxygen = Sauerstoff, mg/L
plot-tonight = Heute Nacht: { $name }
plot-look-again = Fisch { $fish }: noch einmal prüfen
plot-own-line = dieser Bestand: W = { $a } L^{ NUMBER($b, decimals: 3) }, { $fish } Fische, Band 2 sd
plot-published-line = veröffentlicht: W = { $a } L^{ NUMBER($b, decimals: 3) }
plot-length = { $case ->
        [total] Totallänge, { unit-mm }
        [standard] Standardlänge, { unit-mm }
       *[fork] Gabellänge, { unit-mm }
    }
plot-single-fish = Länge und Gewicht einzelner Fische
plot-nets = Gewogene und vermessene Kescher
plot-disagrees = { $net }: stimmt nicht überein
plot-on-published = dieser Bestand, { $off } % zum veröffentlichten
plot-shaded = ({ $percent }-%-Intervall schattiert)
plot-published = veröffentlicht
plot-mean = Mittel { AMOUNT($mean_g, decimals: 0) }, { $percent }-%-Intervall { NUMBER($low_g, decimals: 0) } bis { AMOUNT($high_g, decimals: 0) }
plot-below = { $case ->
        [tenth] 10 % unter { AMOUNT($weight_g, decimals: 0) }
        [half] Hälfte unter { AMOUNT($weight_g, decimals: 0) }
       *[nine-tenths] 90 % unter { AMOUNT($weight_g, decimals: 0) }
    }
plot-measured = { $fish } vermessene Fische

sheet-words = { $case ->
        [check] Diese Linie messen. Nicht 100 mm? Gemessene mm / 100 als Druckmaßstab angeben (97 mm: 0.97).
        [print] Mit 100 % drucken („Originalgröße“, nie „an Seite anpassen“), auf mattes Papier: Glanz und Plastikhüllen blenden.
        [sheet] Flach hinlegen. Fische auf den Bogen oder daneben auf dieselbe Fläche. Senkrecht von oben fotografieren, alle vier Marker im Bild.
        [cards] Entlang der gestrichelten Linien schneiden; den weißen Rand stehen lassen. Auf etwas Steifes, Ebenes kleben und je eine Karte
        [cards-laid] an jede Ecke der Schale legen, auf die Fläche, auf der die Fische liegen. Senkrecht von oben fotografieren, alle Karten im Bild.
        [single] Entlang der gestrichelten Linie schneiden; den weißen Rand stehen lassen. Auf etwas Steifes, Ebenes kleben und neben die Fische legen,
        [single-laid] auf dieselbe Fläche. Senkrecht von oben fotografieren. Vier Karten oder der Bogen messen besser als eine.
        [tub-print] Mit 100 % drucken („Originalgröße“, nie „an Seite anpassen“) und mit matter Folie laminieren, oder in eine matte, wasserdichte Hülle stecken: Glanz spiegelt den Himmel.
        [tub] Flach auf den Boden der Wanne legen, an den Ecken mit etwas Flachem, Mattem beschwert; Wasser knapp über den Rücken der Fische. Senkrecht von
        [tub-still] oben fotografieren, aus 60 bis 90 cm, kein Himmel über dem Bogen gespiegelt, das Wasser in Ruhe; drei Fotos machen. In welligem Wasser ist ein Bogen sicherer als Karten.
        [tub-cards] Jede Karte mit matter Folie laminieren und auf etwas Flaches kleben, das sinkt (Schiefer, Fliese, Stahl). Für runde Wannen, in die der Bogen nicht passt: je eine Karte
        [tub-cards-laid] nahe jeder Seite, eben auf dem Boden, alle im Bild. Wellen verschieben eine Karte um ein, zwei Millimeter: Wasser ruhen lassen und drei Fotos machen.
        [dummy-print] Mit 100 % drucken, mit matter Folie laminieren und den Fisch an seinem dunklen Rand ausschneiden; seine Länge, Maulspitze bis Schwanz, ist 200 mm (nachmessen).
        [dummy] Eben auf einen flachen, geraden Abstandhalter kleben, der schmaler ist, so dass er 30 bis 50 mm über dem Bogen liegt; diese Höhe messen.
        [dummy-laid] Neben den Bogen in die Wanne legen, Wasser darüber, und fotografieren; dann: fishmeasure check FOTO --length-mm 200 --height-mm HÖHE --water
       *[lens-board] Mit 100 % drucken, auf etwas Ebenes kleben und 8 oder mehr Fotos von verschiedenen Seiten machen, nah und bildfüllend.
    }

five-fish-title = Fünf Fische fotografieren und wiegen
five-fish = { $case ->
        [step-0] So lernt das Programm den Körper Ihres Bestands kennen: danach sagt schon ein Foto das Gewicht.
        [step-1] 1. Nehmen Sie fünf Fische der Größen, die Sie halten, nicht die fünf größten. Einen Tag nüchtern; keine laichreifen Fische und keine aufgetriebenen Bäuche: ein Umriss kann sie nicht von Fett unterscheiden.
        [step-2] 2. Machen Sie das Brett nass. Legen Sie den gedruckten Bogen oder die Karten flach hin und einen Fisch, oder einige mit Abstand, auf der Seite daneben: Bauch und Rücken frei, Flossen angelegt, kein harter Schatten daran.
        [step-3] 3. Fotografieren Sie senkrecht von oben, der Fisch mindestens ein Viertel der Bildbreite. Zwei oder mehr Fotos sind besser als eines: Licht und Kanten hat jedes Foto für sich.
        [step-4] 4. Wiegen Sie jeden sofort, abgewischt, auf 1 g oder 1 % (was feiner ist), und schreiben Sie hier auf, welches Foto und welcher Fisch darin, von oben gezählt, Reihe für Reihe, von links nach rechts („fishmeasure photo FOTO --overlay ORDNER“ zeichnet die Nummern ein).
        [step-5] 5. Öffnen Sie auf der Telefonseite die Einheit, „Fünf Fische fotografieren und wiegen“, und tippen Sie sie dort ein. Oder tippen Sie die Tabelle in eine Datei fuenf.csv mit dem Kopf photo,fish,weight_g und führen Sie aus: fishmeasure fit fuenf.csv --species ART --save mein_bestand.toml
       *[step-6] 6. Geben Sie von da an mein_bestand.toml als Art an. Wiegen Sie wieder fünf nach dem Laichen, nach einem Futterwechsel und wenn eine Sammelwägung nicht dazu passt.
    }
five-fish-column = { $case ->
        [date] Datum
        [photo] Foto
        [fish] Fisch
        [weight] Gewicht, { unit-g }
       *[notes] Bemerkungen
    }

## photo: what is doubtful in a photo

flag = { $case ->
        [edge-cut] Der Fisch ragt aus dem Foto.
        [hidden] Ein Teil des Fisches ist verdeckt.
        [touching] Der Fisch berührt oder überlappt etwas; sein Umriss ist unsicher.
        [on-others] Der Fisch liegt auf anderen; wie hoch und wie schräg, ist geschätzt und steckt in seinem Fehler.
        [not-fish-shaped] Der Umriss ist nicht der eines ganzen Fisches.
        [ends-doubtful] Maulspitze oder Schwanzgabel ist unsicher; sehen Sie nach, dann behalten Sie den Fisch oder verschieben Sie sie.
        [under-water] Der Fisch ist durch Wasser zu sehen, das verzerrt.
        [end-in-shadow] Maulspitze oder Schwanzgabel liegt im Schatten, ihr Ort ist daher weniger sicher.
        [coiled] Der Fisch ist zu stark gekrümmt, um längs der Mitte gemessen zu werden.
        [bent] Der Fisch ist gekrümmt; er wurde längs seiner Mitte gemessen.
        [tail-doubtful] Es ist unsicher, welches Ende der Schwanz ist.
        [far-from-markers] Der Fisch liegt weit von den Markern, sein Maßstab ist daher weniger sicher.
        [published-weight] Das Gewicht stammt allein aus der veröffentlichten Beziehung: Standardfehler 25 %.
        [outline-doubtful] Der Umriss des Körpers ist zu krumm, klein, ungewöhnlich oder zu nah an einem anderen Fisch, um danach zu wiegen; gewogen wird nach der Länge, und wo es genug andere Fische im Foto gibt, so rund wie diese.
        [outside-species-range] Die Länge liegt außerhalb des Bereichs der Koeffizienten der Art.
        [other-species] Der Fisch ist hochrückiger oder schlanker als seine Art; ist es eine andere?
        [edited] Jemand hat einen Endpunkt verschoben.
       *[dropped] Jemand hat diesen Fisch ausgelassen.
    }

flag-words = { $case ->
        [edge-cut] am Rand abgeschnitten
        [hidden] verdeckt
        [touching] berührt etwas
        [on-others] liegt auf anderen
        [not-fish-shaped] kein Fischumriss
        [ends-doubtful] Enden unsicher
        [under-water] unter Wasser
        [end-in-shadow] Ende im Schatten
        [coiled] zu krumm
        [bent] gekrümmt
        [tail-doubtful] Schwanz unsicher
        [far-from-markers] weit von Markern
        [published-weight] Gewicht nach Literatur
        [outline-doubtful] Umriss unsicher
        [outside-species-range] außerhalb des Artbereichs
        [other-species] andere Art
        [edited] von Hand geändert
       *[dropped] ausgelassen
    }

problem-words = { $case ->
        [no-marker] kein gedruckter Marker zu sehen
        [no-fish] kein Fisch gefunden
        [no-usable-fish] kein Fisch brauchbar
        [tilted] das Telefon war geneigt
        [marker-missing] ein Marker war nicht zu sehen
        [not-flat] die Marker liegen nicht flach
        [rough-scale] der Maßstab ist grob
        [blurred] unscharf
        [too-far] zu weit weg
        [too-dark] zu dunkel
        [overexposed] überbelichtet
        [small-fish] zu kleine Fische
        [not-validated] nicht validiert
        [other-species] andere Art
        [markers-disagree] Marker widersprechen sich
        [several-sheets] mehrere Bögen
        [known-distance] bekannte Strecke
        [through-water] durch Wasser
        [too-small] zu klein
        [too-large] zu groß
        [print-scale] Druckmaßstab
       *[other] { $case }
    }

scale-method = { $case ->
        [sheet] Bogen
        [loose-markers] lose Marker
        [single-marker] ein Marker
       *[known-distance] bekannte Strecke
    }

overlay-not-used = { $number } nicht verwendet

overlay-length = { $case ->
        [error] { $number }: { NUMBER($length_mm, decimals: 0) }{ "\u2009" }±{ "\u2009" }{ AMOUNT($error_mm, decimals: 0) }
       *[bare] { $number }: { AMOUNT($length_mm, decimals: 0) }
    }

overlay-weight = { WEIGHT($weight_g) }

overlay-footer = { $case ->
        [refused] Nicht vermessen: { LIST($reasons) }
        [no-scale] Kein Maßstab
        [used] { $used } von { $fish } Fischen verwendet
       *[published] Gewichte wie { LIST($names, last: "or") }, allein aus der veröffentlichten Beziehung · Standardfehler 25 %
    }

overlay-scale = Maßstab: { $method }{ $markers }

overlay-scale-error = ±{ PERCENT($share, decimals: 1) }

overlay-tilt = Neigung { NUMBER($tilt, decimals: 0) }°

overlay-errors = { $case ->
        [error] Längen: Standardfehler { AMOUNT($most_mm, decimals: 0) }
       *[errors] Längen: Standardfehler { NUMBER($least_mm, decimals: 0) } bis { AMOUNT($most_mm, decimals: 0) }
    }

overlay-look = Prüfen: { LIST($reasons) }

marker-missing = Nur { $markers } der 4 Marker sind zu sehen; die anderen sind verdeckt, abgeschnitten oder im Glanzlicht, der Maßstab ist daher weniger sicher.
    .meaning = Ein Marker des Bogens war nicht zu sehen.

not-flat = Die Marker liegen nicht ganz in einer Ebene (Abweichung { AMOUNT($rms_mm, decimals: 1) }).
    .advice = Streichen Sie den Bogen glatt, und legen Sie jede Karte auf die Fläche, auf der die Fische liegen.
    .meaning = Der Bogen liegt nicht flach.

overexposed = { $case ->
        [much] Überbelichtet: { PERCENT($share) } davon sind ausgebrannt, und Weiß läuft in die Fische.
       *[parts] Überbelichtet: helle Teile sind ausgebrannt, und Weiß läuft in die Fische.
    }
    .advice = Vermeiden Sie Blitz und direkte Sonne, wischen Sie stehendes Wasser ab, tippen Sie auf das Weiße, um das Foto abzudunkeln.
    .meaning = Zu hell: Papier oder nasse Fische haben ihre Kante verloren.

print-scale-differs = Nach den Kanten seines Papiers wurde der Bogen mit { PERCENT($print_scale, decimals: 1) } gedruckt, was nicht das Angegebene ist.
    .advice = Messen Sie die Prüfstrecke: ein Druckmaßstab von 0,97 sind 97 mm von 100.
    .cli = Messen Sie die Prüfstrecke und geben Sie sie an: --print-scale 0.97 bei 97 mm von 100.
    .page = Messen Sie die Prüfstrecke und geben Sie sie unter „Bogen und Objektiv“ an.
    .meaning = Die Kanten des Papiers sagen einen anderen Druckmaßstab als den angegebenen.

rough-scale = Der Maßstab ist nur auf { PERCENT($share) } bekannt.
    .advice = Vier Marker oder der Bogen sind viel besser.
    .meaning = Der Maßstab des Fotos ist unsicher.

image-broken = beschädigte Datei: { $told }

image-parts = sie hat mehr Teile als jedes Foto

image-damaged = beschädigt oder von unbekannter Art

lens-not-json = das ist kein JSON

megabytes = { NUMBER($size_mb, decimals: 0) } MB

megapixels = { NUMBER($size_mp, decimals: 0) } Megapixel

more-than = mehr als { $size }

picture-pixels = { $width_px } x { $height_px } Pixel

correction-slip = { $case ->
    [no-scale] das Foto hat keinen Maßstab
    [no-species] sie nennt keine Art
    [both-ends] sie braucht snout_px und fork_px
    [outside] ein Punkt liegt außerhalb des Fotos
   *[same-place] Maulspitze und Schwanzgabel liegen an derselben Stelle
}

correction-no-fish = es gibt keinen Fisch { $number }

in-water = Dieses Foto wurde durch Wasser aufgenommen: { $wet_count } der { $fish_count } Fische sehen so aus. Wasser bricht das Licht, Längen wären etwa 5 % falsch; es wird keine angegeben.
    .advice = Geben Sie an, dass die Fische in der Wanne sind, mit Bogen oder Karten auf ihrem Boden; oder legen Sie sie außerhalb des Wassers hin.
    .cli = Geben Sie --water an, wenn Bogen oder Karten auf dem Boden der Wanne liegen (in einer Probe: in_water = true); oder legen Sie die Fische außerhalb des Wassers hin.
    .page = Gehen Sie zurück und wählen Sie bei diesem Kescher „In der Wanne“, wenn Bogen oder Karten auf dem Boden der Wanne liegen; oder legen Sie die Fische außerhalb des Wassers hin.
    .meaning = Fische sind durch Wasser zu sehen, und niemand hat es angegeben.

no-water = Keiner der { $fish_count } Fische sieht aus wie durch Wasser gesehen. Liegen sie an der Luft, sind ihre Längen 1 bis 2 % falsch.
    .advice = Geben Sie „in der Wanne“ nur an, wo Wasser über Bogen und Fischen steht.
    .cli = Lassen Sie --water weg, wo kein Wasser über Bogen und Fischen steht.
    .meaning = Ein Foto sollte durch Wasser aufgenommen sein und sieht nicht so aus.

water-unclear = { $case ->
        [ripples] Das Wasser ist zu unruhig: es verschiebt die Marker um { AMOUNT($rms_mm, decimals: 1) }, und Fische ebenso.
        [rippled] Das Wasser verschiebt die Marker um { AMOUNT($rms_mm, decimals: 1) }, Längen sind daher weniger sicher.
        [murky] Das Wasser ist zu trüb: Schwarz und Weiß der Marker unterscheiden sich nur um { PERCENT($share) } der Papierhelligkeit.
        [cloudy] Das Wasser ist trüb: Schwarz und Weiß der Marker unterscheiden sich um { PERCENT($share) } der Papierhelligkeit, und blasse oder kleine Fische können fehlen.
       *[glare] Zu viel Glanz auf dem Wasser: { PERCENT($share) } des Fotos sind ausgebrannt.
    }
    .advice = { $case ->
        [ripples] Lassen Sie das Wasser zehn Sekunden ruhen, und machen Sie mehrere Fotos.
        [rippled] Lassen Sie das Wasser ruhen, oder machen Sie mehrere Fotos und nennen Sie alle.
        [murky] Wechseln Sie das Wasser, oder warten Sie, bis es sich geklärt hat.
        [cloudy] Wechseln Sie das Wasser, oder warten Sie, bis es sich geklärt hat.
       *[glare] Drehen Sie die Wanne oder sich, bis sich der Himmel nicht mehr spiegelt, oder halten Sie etwas Dunkles darüber.
    }
    .meaning = Wellen, Trübung oder Glanz des Wassers über den Fischen.

water-depth-alone = gilt nur für Fische in einer Wanne: geben Sie auch an, dass sie im Wasser sind

scale-division = { $net }: die Fische wurden in einer Wanne gewogen, und der Ziffernschritt der Waage ist nicht angegeben; angenommen werden { AMOUNT($division_g) }.
    .advice = Geben Sie den Ziffernschritt der Waage an: was sie nach 0 als Nächstes zeigt.
    .cli = Geben Sie scale_division_g des Keschers an: was die Waage nach 0 als Nächstes zeigt.
    .meaning = Ein Kescher wurde in einer Wanne auf einer Waage gewogen, deren Ziffernschritt nicht bekannt ist.

count-unlike-photo = { $net }: eingetragen sind { $entered } Fische, das Foto zeigt { $seen } ({ $low } bis { $high }).
    .advice = Zählen Sie noch einmal, oder sehen Sie das Foto an: Fische können verdeckt sein oder zu einem anderen Kescher gehören.
    .meaning = Die Zählung eines Keschers und sein Foto stimmen nicht überein.

dummy-not-seen = Im Foto wurde kein etwa { AMOUNT($length_mm, decimals: 0) } langer Fisch gefunden.
    .advice = Fotografieren Sie noch einmal mit dem Prüffisch ganz im Bild, oder geben Sie seine Enden an.
    .cli = Fotografieren Sie noch einmal mit dem Prüffisch ganz im Bild, oder geben Sie beide Enden mit --ends X1,Y1,X2,Y2 an (Pixel von oben links im Foto).
    .meaning = Der Prüffisch bekannter Länge wurde im Foto nicht gefunden.

count-doubted = { $photo }: { $expected } Fische sollten da sein, das Foto zeigt { $seen } ({ $low } bis { $high }).
    .advice = Zählen Sie noch einmal, oder machen Sie ein anderes Foto mit verteilten Fischen und ruhigem Wasser.
    .meaning = Eine erwartete Zahl und das Foto stimmen nicht überein.

faint-tails = { $fish_count ->
        [one] Der Schwanz von 1 Fisch hebt sich nicht vom Boden ab, daher wird der Fisch nicht verwendet.
       *[other] Die Schwänze von { $fish_count } Fischen heben sich nicht vom Boden ab, daher werden sie nicht verwendet.
    }
    .advice = Nehmen Sie eine helle Wanne, oder legen Sie eine helle, matte Platte oder den Bogen unter die Fische.
    .meaning = Von oben gesehene Fische haben den Ton des Bodens; ihre Schwänze sind nicht zu sehen.

heap = Fische liegen aufeinander: Es sind mindestens { $least }, und { $measured } ließen sich messen. Wie hoch jeder liegt, ist nicht zu sehen und vergrößert seinen Fehler; Fische darunter sind nicht gezählt.
    .advice = Breiten Sie die Fische in einer Lage aus. Häufen Sie nur getötete Fische, nie lebende.
    .meaning = Fische liegen aufeinander, und nicht alle sind zu sehen.

heap-net = Von { $net } ließen sich { $measured } von { $netted } Fischen messen, denn sie lagen aufeinander. Welche zu sehen sind, hängt etwas von der Größe ab; das ist berücksichtigt und macht den Bereich breiter.
    .advice = Breiten Sie die Fische beim nächsten Mal in einer Lage aus. Häufen Sie nur getötete Fische, nie lebende.
    .meaning = Fische eines Netzes lagen aufeinander; die verdeckten sind berücksichtigt.

too-dark = Das Foto ist zu dunkel.
    .advice = Machen Sie Licht, oder gehen Sie aus dem Schatten.
    .meaning = Zu dunkel, um Fisch oder Marker zu sehen.

## pipeline and batch

batch-in-use = ein anderer Lauf benutzt sie

batch-not-results = sie enthält etwas anderes

measuring-failed = { $case ->
        [batch] Das Programm, das dieses Foto vermaß, ist abgestürzt.
       *[server] Das Vermessen dieses Fotos schlug auf unvorhergesehene Weise fehl.
    }
    .advice = { $case ->
        [batch] Öffnen Sie das Foto und speichern Sie es neu, oder lassen Sie es weg.
       *[server] Senden Sie es noch einmal; schlägt auch das fehl, machen Sie ein anderes Foto.
    }
    .meaning = Das Programm, das ein Foto eines Stapels vermaß, ist abgestürzt.

no-fish = { $case ->
        [unit] Das Bestandsbuch hat am { DAY($on) } keine Fische in { $unit }.
       *[photo] In diesem Foto wurde kein Fisch gefunden.
    }
    .advice = { $case ->
        [unit] Tragen Sie den Besatz ein: wie viele Fische, mit welchem Mittelgewicht, an welchem Tag.
       *[photo] Legen Sie die Fische mit Abstand auf ein einfarbiges Brett neben den Marker, und fotografieren Sie von oben.
    }
    .cli = { $case ->
        [unit] { no-fish.advice } So wird er eingetragen: fishmeasure book add stocked unit={ SHELL($unit) } cohort=… fish_count=… mean_weight_g=… on=…
       *[photo] { no-fish.advice }
    }
    .meaning = In einem Foto wurde kein Fisch gefunden, oder für eine Einheit sind keine eingetragen.

no-usable-fish = Kein Fisch war ganz und deutlich genug zum Vermessen; was einer sein kann, ist markiert und nicht verwendet.
    .advice = Legen Sie die Fische mit Abstand, alle ganz im Bild, und fotografieren Sie noch einmal, oder markieren Sie Maulspitze und Schwanzgabel von Hand.
    .meaning = Kein Fisch war ganz und deutlich genug.

not-validated = Das Vermessen von { $species } wurde nicht an Fotos validiert: kein echtes Foto dieser Art wurde geprüft, die angegebenen Fehler sind also die gezeichneter Bilder und anderer Fische.
    .advice = Messen Sie einige dieser Fische mit dem Maßstab nach, bevor Sie sich auf die Längen verlassen.
    .meaning = Die Art wurde an keinem echten Foto geprüft.

small-fish = { $fish_count ->
        [one] Mindestens 1 Fisch ist in diesem Foto zu klein zum Vermessen. Ohne ihn wäre das Mittel zu hoch.
       *[other] Mindestens { $fish_count } Fische sind in diesem Foto zu klein zum Vermessen. Ohne sie wäre das Mittel zu hoch.
    }
    .advice = Gehen Sie näher heran, bis jeder länger ist, als jetzt { AMOUNT($smallest_mm, decimals: 0) } sind.
    .meaning = Fische sind im Foto zu klein zum Vermessen; ihre Zahl.

## estimation: nets, lengths, agreement

some-net = ein Kescher

length-in-net = { AMOUNT($length_mm, decimals: 0) } in { $net }

net-off = { $case ->
        [above] { PERCENT($by) } über
       *[below] { PERCENT($by) } unter
    }

net-reason = { $case ->
        [alone] Gewicht und Längen passen bei keiner wahrscheinlichen Korpulenz zusammen: prüfen Sie Zählung, Tara und die notierte Zahl.
        [other-fish] Die Fische liegen im Gewicht { $off } den anderen: eine andere Charge, eine sortierte Gruppe oder eine Stelle, an der nur manche Größen stehen. Keschern Sie noch einmal anderswo.
        [count] Das Gewicht liegt { $off } dem, was die anderen für { $fish_count } Fische sagen, und passt zu { $likely_count }: die Zählung ist wohl um einen falsch. Zählen Sie noch einmal, oder nehmen Sie die Zahl vom Foto.
        [tare-forgotten] Das Gewicht liegt { $off } dem, was die anderen sagen; die { AMOUNT($excess_g, decimals: 0) } zu viel sehen nach einer Tara von { AMOUNT($tare_g, decimals: 0) } aus, die nicht abgezogen wurde.
        [tare-twice] Das Gewicht liegt { $off } dem, was die anderen sagen; die fehlenden { AMOUNT($missing_g, decimals: 0) } sehen nach einer Tara von { AMOUNT($tare_g, decimals: 0) } aus, die zweimal abgezogen wurde.
       *[weight] Das Gewicht liegt { $off } dem, was die anderen sagen, mehr, als Zufall oder ein Fisch mehr oder weniger erklärt: prüfen Sie die Tara, die Einheit der Waage und die notierte Zahl.
    }

fair-netting = { $case ->
        [crowd] Treiben Sie die Fische zuerst behutsam zusammen, damit der Kescher alle erreichen kann.
        [places] Keschern Sie an mehreren Stellen und in mehreren Tiefen, nicht einmal in der nächsten Ecke.
        [first] Lassen Sie nicht den ersten Kescher für alle stehen: voran sind mutige, hungrige oder langsame Fische.
        [lure] Locken Sie nicht mit Futter: hungrige Fische kommen, die übrigen nicht.
        [whole-dip] Wiegen und zählen Sie jeden Fisch eines Keschers; auszusuchen heißt nach Größe auszuwählen.
        [mesh] Nehmen Sie eine Maschenweite, die die kleinsten Fische hält: kein Intervall erfasst eine Größe, die durchfällt.
       *[welfare] Nasse Hände, kurz an der Luft, kühles Wasser; keine Probe bei Hitze oder wenig Sauerstoff.
    }

bulk-only = Es wurde kein Fisch vermessen, die Streuung der Größen ist daher die üblicher Bestände, nicht dieses Bestands.
    .advice = Fotografieren Sie einen Kescher, um sie zu sehen.
    .meaning = Kein Fisch wurde vermessen: die Streuung ist die üblicher Bestände.

count-differs = { $case ->
        [book] Am { DAY($on) } wurden { NUMBER($counted, decimals: 0) } Fische gezählt; das Bestandsbuch hatte { NUMBER($expected, decimals: 0) }.
       *[net] { CAPITAL($net) }: die Fotos zeigen { $in_photos } Fische, gezählt wurden { $counted }.
    }
    .advice = { $case ->
        [book] Suchen Sie nach Fischen, die unbemerkt verendet oder weg sind, oder nach einem falschen Eintrag.
       *[net] Berichtigen Sie, was falsch ist.
    }
    .meaning = Die gezählten Fische stimmen nicht mit denen auf den Fotos eines Keschers oder im Bestandsbuch überein.

count-in-unit-too-small = { $netted } Fische wurden gekeschert, aber in der Einheit sollen nur { $count_in_unit } sein.
    .advice = Berichtigen Sie die Zahl der Einheit; eine Zahl, die um mehr als ihren Fehler zu klein ist, wird nicht verwendet.
    .meaning = Es wurden mehr Fische gekeschert, als in der Einheit sein sollen.

doubtful-lengths = Diese Längen sind eher falsch als wirklich und zählen wenig: { LIST($places) }.
    .advice = Prüfen Sie die Umrisse.
    .meaning = Manche Längen sind wahrscheinlich falsch; sie zählen wenig.

far-from-published = { $case ->
        [net] Bei seinen Längen wiegt ein Kescher das { NUMBER($least, digits: 2) }fache des Veröffentlichten, was kein Bestand tut.
        [nets] Bei seinen Längen wiegt ein Kescher das { NUMBER($least, digits: 2) }- bis { NUMBER($most, digits: 2) }fache des Veröffentlichten, was kein Bestand tut.
       *[heavy] Bei diesen Längen wiegen die Fische das { NUMBER($times, digits: 2) }fache des Veröffentlichten.
    }
    .advice = Prüfen Sie Einheit der Waage, Tara, Zählungen, Druckmaßstab und Art{ $case ->
        [net] ; verwenden Sie diese Zahlen nicht.
        [nets] ; verwenden Sie diese Zahlen nicht.
        [light] . Ist alles richtig, sind diese Fische für ihre Länge ungewöhnlich leicht.
       *[heavy] . Ist alles richtig, sind diese Fische für ihre Länge ungewöhnlich schwer.
    }
    .meaning = Die Gewichte liegen weit von den veröffentlichten, oder kein Fisch wiegt so.

net-disagrees = { CAPITAL($net) }: { $reason }
    .meaning = Ein Kescher stimmt nicht mit den anderen überein; der Grund steht dabei.

likely-slip = { $net }: { NUMBER($fish, decimals: 0) } Fische von zusammen { AMOUNT($weight_g) } liegen weit von { AMOUNT($others_g) } je Fisch der anderen Kescher.
    .advice = { $slip ->
        [count-tenfold] Wären es { NUMBER($right_fish, decimals: 0) } Fische, würde es passen. Berichtigen Sie die Zählung, oder wiegen Sie den Kescher noch einmal.
        [count-tenth] Wären es { NUMBER($right_fish, decimals: 0) } Fische, würde es passen. Berichtigen Sie die Zählung, oder wiegen Sie den Kescher noch einmal.
        [tare-forgotten] Ohne den leeren Kescher wären es { AMOUNT($right_weight_g) }, und es würde passen. Tragen Sie die Tara ein, oder wiegen Sie den Kescher noch einmal.
        [gross] Wäre die Ablesung von { AMOUNT($gross_g) } mit dem Kescher { AMOUNT($right_gross_g) }, würde es passen. Einheit und Ziffern der Ablesung prüfen oder den Kescher noch einmal wiegen.
       *[weight] Wären es { AMOUNT($right_weight_g) }, würde es passen. Prüfen Sie die Einheit und die abgelesenen Ziffern, oder wiegen Sie den Kescher noch einmal.
    }
    .meaning = Ein Kescher liegt da, wohin ein üblicher Fehler ihn brächte: zehnmal, andere Einheit, keine Tara.

net-unused = { CAPITAL($net) } hat kein Gewicht und keinen Fisch mit brauchbarer Länge und sagt daher nichts.
    .meaning = Ein Kescher ergibt nichts: weder gewogen noch vermessen.

one-net = Ein Kescher kann nicht zeigen, wie Kescher sich unterscheiden; dieser Teil des Fehlers ist der übliche, nicht gemessen.
    .advice = Nehmen Sie einen weiteren von einer anderen Stelle.
    .meaning = Ein Kescher sagt wenig über den Rest der Einheit.

outside-species-range = { $case ->
        [lengths] { $outside } von { $measured } Fischen liegen außerhalb von { NUMBER($least_mm, decimals: 0) }-{ AMOUNT($most_mm, decimals: 0) }, wofür die Koeffizienten der Art gelten.
       *[mean] Das Mittel von { AMOUNT($mean_g, digits: 3) } liegt außerhalb von { NUMBER($least_g, decimals: 0) } bis { AMOUNT($most_g, decimals: 0) }, wofür die Koeffizienten der Art gelten.
    }
    .advice = { $case ->
        [lengths] {""}
       *[mean] Prüfen Sie die Einheit der Waage, die Tara und die Zählungen.
    }
    .meaning = Fische liegen außerhalb des Bereichs der Längen-Gewichts-Beziehung.

photo-only = { $case ->
        [outlines] Kein Kescher wurde gewogen, die Gewichte beruhen daher auf den Umrissen der Fische: Standardfehler { PERCENT($relative_sd) } für die Dicke des Bestands, und nichts ist bekannt von laichreifen Fischen, vollen Därmen oder aufgetriebenen Bäuchen.
        [own-line] Kein Kescher wurde gewogen, die Gewichte beruhen daher allein auf dieser Längen-Gewichts-Beziehung: Standardfehler { PERCENT($relative_sd) }.
       *[published] Kein Kescher wurde gewogen, die Gewichte beruhen daher allein auf einer veröffentlichten Längen-Gewichts-Beziehung: Standardfehler { PERCENT($relative_sd) }.
    }
    .advice = Wiegen Sie einen gezählten Kescher derselben Fische, um das Niveau festzulegen.
    .meaning = Kein Kescher wurde gewogen: das Niveau ist das der Umrisse oder einer Längen-Gewichts-Beziehung.

photos-exchanged = Neben den Längen in ihren Fotos ist { $net } { $case ->
        [heavy] um { PERCENT($net_off) } zu schwer und { $other } um { PERCENT($other_off) } zu leicht
       *[light] um { PERCENT($net_off) } zu leicht und { $other } um { PERCENT($other_off) } zu schwer
    }; sind die beiden Fotos vertauscht, passen beide.
    .advice = Wahrscheinlich gehören die Fotos zum jeweils anderen Kescher: vertauschen Sie sie, oder sehen Sie nach, welche Fische jedes Foto zeigt.
    .meaning = Die Fotos zweier Kescher sind anscheinend vertauscht.

ripe-fish = Diese Fische sind laichreif oder laichen. Rogen und Milch machen bis zu einem Fünftel ihres Gewichts aus, und kein Umriss unterscheidet sie von Fleisch: Gewichte nach Foto sind um so viel unsicherer, und nichts davon gilt für andere Fotos.
    .advice = Wiegen Sie die Kescher, und fotografieren und wiegen Sie nach dem Laichen wieder fünf Fische.
    .meaning = Die Fische sind laichreif oder laichen, also sagen Umrisse ihr Gewicht weniger sicher.

repeat-photos = { CAPITAL($net) }: die Fotos zeigen zusammen mehr Fische, als gezählt wurden, also dieselben. Verwendet wurde das Foto mit den meisten vermessenen Fischen.
    .meaning = Dieselben Fische scheinen auf zwei Fotos eines Keschers zu sein.

repeats-differ = { CAPITAL($net) }: die wiederholten Wägungen liegen { AMOUNT($apart_g, decimals: 0) } auseinander, mehr, als diese Waage erklärt.
    .advice = Wiegen Sie noch einmal.
    .meaning = Wiederholte Wägungen eines Keschers weichen mehr ab, als der Fehler der Waage erklärt.

same-fish = Die { $fish } Fische im Foto von { $net } sind einer wie der andere so lang wie die von { $other }: sie weichen im Median um { PERCENT($apart, decimals: 1) } ab, wie dieselben Fische es tun und die zweier Kescher kaum je.
    .advice = Wahrscheinlich wurde ein Kescher zweimal fotografiert. Geben Sie jedem Kescher sein eigenes Foto, oder lassen Sie das zweite weg.
    .meaning = Die Fotos zweier Kescher zeigen anscheinend dieselben Fische.

two-size-groups = Es gibt zwei Größengruppen: etwa { PERCENT($share) } nahe { AMOUNT($small_g, decimals: 0) } und der Rest nahe { AMOUNT($large_g, decimals: 0) }.
    .advice = Ein Mittel beschreibt keine davon; erwägen Sie, zu sortieren.
    .meaning = Die Probe zeigt zwei Größengruppen.

## book: what is in a unit

water-system = { $case ->
        [flow-through] Durchfluss von neuem Wasser
        [pond] ein Teich
        [closed-loop] ein geschlossener Kreislauf mit Biofilter
       *[bed-loop] ein geschlossener Kreislauf mit Pflanzenbeet
    }

note-water-system = { $case ->
        [stated] Wasser von { $unit }: { $system }, wie eingetragen.
       *[taken] Wasser von { $unit } gilt als { $system }, nach den Einträgen zu Zulauf, Kreislauf und Beet; water_system legt es fest.
    }

note-cohort-growth = Wachstum von { $name }: { $samples } Proben, { $periods } Fütterungszeiträume, veröffentlichter TGC.

count-from = { $case ->
        [counted] gezählt am { DAY($on) }, und was seither eingetragen wurde
       *[stocked] besetzt, abzüglich Verlusten, Entnahmen und Umsetzungen; seither nie gezählt
    }

weight-from = { $case ->
        [none] es wurde kein Gewicht eingetragen
        [sampled] Probe vom { DAY($on) }, zusammen mit den früheren
        [grown] Proben bis { DAY($on) }, seither gewachsen
       *[stocked] Gewicht beim Besatz, seither gewachsen
    }

temperature-held = Wachstum und Futter voraus nehmen das Wasser in { $unit }, wie es zuletzt gemessen wurde, { AMOUNT($temperature_deg_c, atMost: 3) } am { DAY($on) }, für das ganze Jahr, auf { AMOUNT($sd_deg_c) } mehr oder weniger.
    .advice = Tragen Sie die Temperatur der Einheit für jeden Monat ein, oder eine Zahl für eine Quelle, die etwa gleich bleibt.
    .meaning = Ohne Temperaturen eines Jahres gilt die letzte Messung.

more-out-than-in = Im Bestandsbuch gehen { NUMBER($more, decimals: 0) } Fische mehr hinaus, als hereinkamen.
    .advice = Ein Eintrag fehlt oder hat die falsche Charge; zählen Sie die Fische.
    .meaning = Es verließen mehr Fische einer Charge eine Einheit, als hineinkamen.

doubt-weight = { $case ->
        [falling] Die Fische wiegen je { AMOUNT($entered_g, digits: 3) }; am { DAY($on) } wogen sie { AMOUNT($before_g, digits: 3) }, und zu erwarten sind { AMOUNT($expected_g, digits: 3) }.
        [size] Das wären Fische von je { AMOUNT($entered_g, digits: 3) }.
        [each] Das sind { AMOUNT($entered_g, digits: 3) } je Fisch; zu erwarten sind { AMOUNT($expected_g, digits: 3) }.
       *[sample] Die Fische wiegen je { AMOUNT($entered_g, digits: 3) }; zu erwarten sind { AMOUNT($expected_g, digits: 3) }.
    }
    .meaning = Vor dem Speichern gefragt: ein Mittelgewicht liegt weit vom Erwarteten.

doubt-count = { $case ->
        [gone] { NUMBER($entered_fish, decimals: 0) } Fische sollen { $unit } verlassen, wo nach dem Bestandsbuch { NUMBER($expected_fish, decimals: 0) } sind.
        [dead] { NUMBER($entered_fish, decimals: 0) } tote Fische sind in { $unit } weit mehr als üblich.
        [stated] Die Probe wurde für { NUMBER($entered_fish, decimals: 0) } Fische in { $unit } gerechnet, wo nach dem Bestandsbuch { NUMBER($expected_fish, decimals: 0) } sind.
       *[counted] In { $unit } wurden { NUMBER($entered_fish, decimals: 0) } Fische gezählt, wo nach dem Bestandsbuch { NUMBER($expected_fish, decimals: 0) } sind.
    }
    .meaning = Vor dem Speichern gefragt: eine Zahl von Fischen liegt weit vom Erwarteten.

doubt-kilograms = { $case ->
        [gone] { AMOUNT($entered_kg) } sollen { $unit } verlassen, wo nach dem Bestandsbuch { AMOUNT($expected_kg) } sind.
       *[stocked] { AMOUNT($entered_kg) } passen nicht zu Zahl und Größe der Fische, die { AMOUNT($expected_kg) } ergeben.
    }
    .meaning = Vor dem Speichern gefragt: Kilogramm liegen weit vom Erwarteten.

doubt-density = In { $unit } wären { AMOUNT($entered_kg_per_m3, decimals: 0) }, mehr als je ein Becken besetzt wird.
    .meaning = Vor dem Speichern gefragt: mehr Fische, als eine solche Einheit fasst.

doubt-fcr = Die Fische hätten mit { NUMBER($entered_ratio, digits: 2) } kg Futter ein Kilogramm zugenommen; das kann nicht sein.
    .meaning = Vor dem Speichern gefragt: eine Futterverwertung, die kein Futter hat.

doubt-condition = Bei ihren Längen haben die Fische einen Korpulenzfaktor von { NUMBER($entered_ratio, digits: 3) }; nach der letzten Probe sind { NUMBER($expected_ratio, digits: 3) } zu erwarten.
    .meaning = Vor dem Speichern gefragt: Gewicht und Länge passen nicht zur letzten Probe.

doubt-temperature = Das Wasser soll { AMOUNT($entered_deg_c, decimals: 1) } haben; zu erwarten sind { AMOUNT($expected_deg_c, decimals: 1) }.
    .meaning = Vor dem Speichern gefragt: eine Wassertemperatur weit vom Erwarteten.

doubt-feed = { AMOUNT($entered_kg) } Futter liegen weit von { AMOUNT($expected_kg) }, die zu erwarten sind.
    .meaning = Vor dem Speichern gefragt: weit mehr oder weniger Futter als üblich.

doubt-no-fish = { $case ->
        [later] Nach dem Bestandsbuch sind vor dem { DAY($first_on) } keine Fische von { $cohort } in { $unit }.
       *[never] Nach dem Bestandsbuch sind am { DAY($on) } keine Fische von { $cohort } in { $unit }.
    }
    .meaning = Vor dem Speichern gefragt: Fische, wo das Bestandsbuch keine hat.

doubt-twice = Dasselbe steht schon im Bestandsbuch, am { DAY($on) }.
    .meaning = Vor dem Speichern gefragt: dieselben Zahlen sind schon da.

doubt-photo-twice = { $photos ->
        [one] Ein Foto dieser Probe ist auch in der vom { DAY($on) }.
       *[other] { $photos } Fotos dieser Probe sind auch in der vom { DAY($on) }.
    }
    .meaning = Vor dem Speichern gefragt: dasselbe Foto in zwei Proben.

doubt-long-ago = { DAY($on) } liegt lange vor dem { DAY($last_on) } dessen, was zuletzt eingetragen wurde.
    .meaning = Vor dem Speichern gefragt: ein Tag vor langer Zeit.

slip-fish = Wären es { NUMBER($right_fish, decimals: 0) } Fische, würde es passen.

slip-grams = { $case ->
        [grams] Wären es { AMOUNT($right_g) } je Fisch, würde es passen (Gramm statt Kilogramm).
        [kilograms] Wären es { AMOUNT($right_g) } je Fisch, würde es passen (Kilogramm statt Gramm).
        [pounds] Wären es { AMOUNT($right_g) } je Fisch, würde es passen (Pfund und Kilogramm).
       *[none] Wären es { AMOUNT($right_g) } je Fisch, würde es passen.
    }

slip-kilograms = { $case ->
        [grams] Wären es { AMOUNT($right_kg) }, würde es passen (Gramm statt Kilogramm).
        [kilograms] Wären es { AMOUNT($right_kg) }, würde es passen (Kilogramm statt Gramm).
        [pounds] Wären es { AMOUNT($right_kg) }, würde es passen (Pfund und Kilogramm).
       *[none] Wären es { AMOUNT($right_kg) }, würde es passen.
    }

slip-temperature = { $case ->
        [fahrenheit] In Grad Fahrenheit gelesen sind es { AMOUNT($right_deg_c, decimals: 1) }; das würde passen.
       *[tenfold] Wären es { AMOUNT($right_deg_c, decimals: 1) }, würde es passen.
    }

slip-tare = Es würde passen, wenn Kescher oder Eimer mitgewogen wurde: ziehen Sie ihn ab.

slip-print-scale = Es würde passen, wenn der Bogen in anderem Maßstab gedruckt wurde: messen Sie seine Prüflinie.

slip-place = Es würde zu { $cohort } in { $unit } passen.

slip-day = Es würde zum { DAY($right_on) } passen.

no-growth-figures = Für { $species } gibt es keine Zahlen zum Wachstum: das Mittelgewicht steht zwischen Proben still.
    .meaning = Die Art hat keine Zahlen zum Wachstum, daher lässt das Bestandsbuch ihre Fische nicht wachsen.

feed-off-track = Vom { DAY($since_on) } bis { DAY($until_on) } sind { AMOUNT($feed_kg, decimals: 1) } Futter eingetragen, das meiste am { DAY($most_on) }; nach allem anderen fraßen die Fische { AMOUNT($expected_kg, decimals: 0) }. Dieses Futter blieb unberücksichtigt.
    .advice = Berichtigen Sie den falschen Futtereintrag, oder nehmen Sie eine Probe und zählen Sie die Fische.
    .meaning = Futter liegt weit von dem, was die Fische gefressen haben können, und blieb unberücksichtigt.

sample-off-track = Die Probe vom { DAY($on) } ({ AMOUNT($mean_g, decimals: 0) }) liegt weit von { AMOUNT($expected_g, decimals: 0) }, die alles andere sagt.
    .advice = Prüfen Sie Wägung, Futter und Temperatur; nehmen Sie noch eine Probe.
    .meaning = Das Mittelgewicht einer Probe liegt weit von dem, was das Bestandsbuch erwartete.

weight-implausible = { $case ->
        [stocked] { $fish_count } Fische von { AMOUNT($weight_g) } sind nicht { AMOUNT($bulk_weight_kg) }; die Kilogramm blieben unberücksichtigt.
       *[taken] Fische von { AMOUNT($weight_g, decimals: 0) }, aus einem Mittel von { AMOUNT($mean_g, decimals: 0) } genommen, passen nicht; das Mittel blieb, wie es war.
    }
    .advice = { $case ->
        [stocked] Berichtigen Sie den Eintrag vom { DAY($on) }.
       *[taken] Nehmen Sie eine Probe.
    }
    .meaning = Ein eingetragenes Gewicht passt nicht zu den anderen Zahlen der Fische.

weight-unknown = { AMOUNT($weight_kg) } wurden am { DAY($on) } entnommen, als kein Mittelgewicht bekannt war; ihre Zahl ist daher unbekannt.
    .advice = Berichtigen Sie den Eintrag mit einer Stückzahl, oder zählen Sie die Fische.
    .meaning = Fische wurden nach Gewicht entnommen, als ihr Mittelgewicht unbekannt war.

## store

store-demo = Die Quellbecken: erfundene Daten zum Ausprobieren. Solche Becken, Fische und Menschen gibt es nicht.

store-demo-note = { $case ->
    [bought] Nach Gewicht gekauft. Erfunden.
    [slip] Zehnmal zu viel, ein Tippfehler.
   *[smallest] Die kleinsten kamen in { $unit }.
}

store-no-address = das ist keine Adresse einer Datenbank

store-other-database = { $driver } ist weder sqlite noch postgresql

store-no-driver = { $driver } fehlt; installieren Sie fishmeasure[postgres]

store-part-lost = ein Teil davon ist nicht lesbar

store-emptied = es ist leer, sein Protokoll aber nicht

backup-content = { $case ->
    [more-than-files] sie enthält mehr als Dateien
    [strange-name] sie enthält einen seltsamen Namen
    [end-missing] ihr Ende fehlt
    [no-book] das Bestandsbuch ist nicht darin
    [book-damaged] das Bestandsbuch darin ist beschädigt
    [book-strange] das Bestandsbuch darin enthält mehr als Tabellen
   *[book-unread] das Bestandsbuch darin ist nicht lesbar
}

backup-unread = { $case ->
    [told] sie ist nicht lesbar ({ $told })
   *[bare] sie ist nicht lesbar
}

backup-file-changed = { $file } ist nicht mehr, was gespeichert wurde

backup-format = sie sagt nicht, dass sie { $format } in Fassung { $version } ist

import-where = { $case ->
    [tables] Die Tabellen
    [document] Das Dokument
   *[file] Die Datei
}

import-no-json = das ist kein JSON ({ $told })

import-format = es steht nicht darin, dass es { $format } ist

import-version = die Fassung ist { $version }, nicht { $known_version }

import-remarks = remarks ist kein Objekt aus Texten

import-no-list = { $name } ist keine Liste von Objekten

import-tables = die Tabellen sind { LIST($tables) }

import-line = { $name }.csv, Zeile { $line }

table-column = ist keine Spalte einer Kescher-Tabelle{ $case ->
        [near] ; ist { $near } gemeint?
       *[far] ; solche sind fish, gross_g, tare_g, photos, label
    }

table-twice = steht zweimal in der Kopfzeile

table-two = ist { $first } in einer Zeile und { $second } in Zeile { $line }; eine Probe hat nur eines

table-unclear = { QUOTED($given) } lässt sich auf zwei Arten lesen; schreiben Sie { $whole } oder { $decimal }

table-day = { QUOTED($given) } ist kein Tag; schreiben Sie 2026-05-02

import-cells = es sind mehr Zellen als in der Kopfzeile

import-no-csv = das ist kein CSV ({ $told })

import-field = { $field } { $reason }

import-row = { $place }: { $field } { $reason }

field-no-number = ist { QUOTED($given) }; schreiben Sie Zahlen wie 12.5

field-of-no-kind = ist hier kein Feld{ $case ->
        [near] ; ist { $near } gemeint?
       *[far] {""}
    }

## face: Python

## cli

cli-ration = Ration heute: { NUMBER($percent) } % des Körpergewichts

cli-feed-today = Futter heute: { AMOUNT($feed_kg) }

cli-feed-ahead = Futter in { $days } Tagen: { AMOUNT($feed_kg) }

cli-conversion = { $case ->
    [biological] Biologischer Futterquotient: { NUMBER($ratio) }
   *[economic] Wirtschaftlicher Futterquotient: { NUMBER($ratio) }
}

cli-gain = Zuwachs: { AMOUNT($gain_kg) }

cli-day = { $case ->
    [after] nach { DAY($on) }
    [now] jetzt, { DAY($on) }
    [or-later] { DAY($on) } ({ DAY($first_on) } oder später)
   *[from-to] { DAY($on) } ({ DAY($first_on) } bis { DAY($last_on) })
}

cli-weight-on = { DAY($on) }: { AMOUNT($weight_g) }

cli-growth-coefficient = Thermischer Wachstumskoeffizient x 1000: { NUMBER($tgc_x1000) }

cli-mean-weight = Mittelgewicht am { DAY($on) }: { AMOUNT($weight_g) }

cli-at-size = Mit { AMOUNT($size_g) }: die ersten (5 %) { $first }

cli-at-size-half = die Hälfte { $half }

cli-at-size-all = fast alle (95 %) { $nearly_all }

cli-growth-rate = Spezifische Wachstumsrate, erste bis letzte Probe: { NUMBER($rate) } %/Tag

cli-unionised-share = Anteil von Ammoniak (NH3): { PERCENT($share, decimals: 2) }

cli-unionised = Ammoniak-Stickstoff (NH3-N): bis { AMOUNT($unionised_n_mg_per_l, digits: 2, end: "high") }

cli-unionised-limit = Vom Grenzwert { AMOUNT($limit_n_mg_per_l) }: bis { NUMBER($percent, digits: 2, end: "high") } %

cli-feed-nitrogen = Das Futter ergibt { AMOUNT($made_g) } Stickstoff am Tag

cli-plants-take = Die Pflanzen nehmen { AMOUNT($uptake_g) } am Tag auf

cli-nitrate = Nitrat-Stickstoff in { $days } Tagen: bis { NUMBER($high_mg_per_l, digits: 3) } (wahrscheinlich { NUMBER($likely_mg_per_l, digits: 3) }) { unit-mg-per-l }

cli-nitrate-limit = { $case ->
    [passed] Der Grenzwert von { AMOUNT($limit_mg_per_l) } kann in { $days } Tagen überschritten sein
   *[never] Der Grenzwert von { AMOUNT($limit_mg_per_l) } wird in dieser Zeit nicht erreicht
}

cli-bed-needed = { AMOUNT($feed_g) } Futter am Tag versorgen { AMOUNT($bed_m2) }

cli-bed-carries = { AMOUNT($bed_m2) } nehmen { AMOUNT($feed_kg) } Futter am Tag auf

cli-room-ahead = In den nächsten { $days } Tagen ist Platz für { $fish } Setzlinge von { AMOUNT($weight_g) }

cli-over-ahead = { $case ->
    [now] Eine Grenze kann jetzt überschritten sein; nehmen Sie { $fish } Fische heraus, damit es in den nächsten { $days } Tagen keine ist
   *[later] Eine Grenze kann in { $over_days } Tagen überschritten sein; nehmen Sie { $fish } Fische heraus, damit es in den nächsten { $days } Tagen keine ist
}

cli-density = Besatzdichte: bis { AMOUNT($density_kg_per_m3, end: "high") }

cli-limit = { $name }: { $used } erreicht; danach allein mindestens { AMOUNT($capacity_kg, end: "low") }

cli-limiting = { $case ->
    [over] Zuerst begrenzt durch { $name }; { AMOUNT($room_kg, digits: 3) } zu viel am unsicheren Ende
   *[room] Zuerst begrenzt durch { $name }; Platz für { AMOUNT($room_kg, digits: 3) } mehr
}

cli-lens = { $file }: { $photos } Fotos von { $case ->
        [named] { $camera }
       *[unnamed] einer Kamera ohne Namen
    }, Brennweite { AMOUNT($focal_mm, decimals: 1) } (Kleinbild), Verzeichnung k1 { $k1 }, passt auf { NUMBER($rms_px, decimals: 2) } Pixel

cli-warning = Warnung: { $told }

cli-the-file = Datei

cli-the-output = die Ausgabe

cli-no-file = das ist keine Datei

cli-beside = neben { $other }

cli-without = ohne { $other }

cli-more-than-one = mehr als eines

cli-wanted = { $case ->
    [photos] ein Ordner oder eine Liste mit Fotos
    [cluster] möglich ohne 'pip install fishmeasure[cluster]'
    [scheduler] die Adresse eines laufenden Dask-Schedulers
    [writable] beschreibbar ({ $reason })
    [readable] lesbar ({ $reason })
    [text] lesbar (das ist kein Text)
    [ends] von der Form 120,80,940,85
    [two-on-screen] neben --json - möglich: nennen Sie eine Datei
    [table] ein CSV oder --instructions DATEI
    [picture] eine Datei in .png, .svg oder .pdf
    [both-minutes] möglich mit der anderen: --net-minutes und --fish-minutes gehören zusammen
    [strata] wie 50/30/20, Anteile in Prozent, die 100 ergeben, oder 50:180/50:220 mit Mittelgewichten in g
    [record] möglich ohne Datum und Einheit in der Datei
    [settings] Einstellungen, wie dieses Programm sie schreibt ({ $reason })
    [sample-file] der Name einer Probendatei, der auf .toml endet
    [new-file] eine neue Datei: sie ist schon da
    [own-photo] frei: es gehört zu einem anderen Kescher
    [one-of-two] möglich: geben Sie eines von beiden an
    [network] möglich: dieser Rechner ist in keinem Netz
    [pair] ein Paar von Dateien
    [there] vorhanden
    [certificate] ein Zertifikat mit seinem Schlüssel in { $key }, beide PEM, ohne Passwort
    [own-port] ein Port, den dieser Benutzer öffnen darf; nehmen Sie einen ab 1024
    [free-port] frei: ein anderes Programm oder dieses bedient dort schon
   *[folder] ein beschreibbarer Ordner ({ $reason })
}

cli-example = { $case ->
    [kind] unit oder cohort
    [such-as] etwa { $example }
    [not-before] { $example }, kein Tag vor der letzten Probe
    [take] --take 2026-08-01=60 oder --weekly size --until 2026-10-31
    [weekly] 60 (Fische), 20kg oder size
    [from-on] ein Tag ab { $first_on }
    [temp-alone] --temp 11 allein
   *[temp] --temp 11, --monthly oder --wave
}

usage-takes = { $case ->
    [number] nötig ist eine Zahl
    [whole] nötig ist eine ganze Zahl
    [most] höchstens { $limit }
    [range] { $low } bis { $high }
   *[least] mindestens { $limit }
}

usage-no-option = '{ $command }' hat keine Option { $option }

usage-needs = '{ $command }' braucht { $parameter }

usage-needs-value = '{ $command }' braucht einen Wert nach { $parameter }

usage-no-value = { $option } nimmt keinen Wert

usage-value = { $parameter }: { $reason }

usage-extra = '{ $command }' nimmt '{ $argument }' nicht an

usage-named = { $name } ({ $meaning })

cli-not-text = das ist kein Text

cli-not-utf-8 = das ist kein Text in UTF-8

cli-not-kept = { $photo } kann in { $folder } nicht behalten werden ({ $reason })

cli-weights = { $case ->
    [stock] ± ist ein Standardfehler. Gewichte nach den eigenen Zahlen dieses Bestands.
    [outline] ± ist ein Standardfehler. Gewichte wie { $species }, nach der Höhe jedes Körpers neben seiner Länge, mit einem Standardfehler von etwa 15 %. Laichfische, volle Därme und aufgetriebene Bäuche wiegen anders, als ein Umriss sagt: wiegen Sie einen Kescher dieser Fische mit 'fishmeasure sample', oder fünf davon einzeln mit 'fishmeasure fit'.
   *[line] ± ist ein Standardfehler. Gewichte wie { $species }, allein aus der veröffentlichten Beziehung, mit einem Standardfehler von 25 %: wiegen Sie einen Kescher dieser Fische mit 'fishmeasure sample', oder fünf davon einzeln mit 'fishmeasure fit'.
}

cli-batch-damaged = { $lines ->
    [one] 1 Zeile von { $file } war abgeschnitten oder beschädigt; ihr Foto wird noch einmal vermessen.
   *[other] { $lines } Zeilen von { $file } waren abgeschnitten oder beschädigt; ihre Fotos werden noch einmal vermessen.
}

cli-batch-done = { $photos } Fotos, { $unusable } davon ohne Zahlen; die Gründe stehen in { $file }.

cli-table-unread = { $name } ist nicht lesbar ({ $reason })

cli-table-no-csv = { $name } ist kein CSV ({ $told })

cli-table-column = { $name } hat keine Spalte { $column }

cli-table-cell = Fisch { $number } hat "{ $given }" für { $name }

cli-row-no-photo = Zeile { $row } nennt kein Foto

fit-row-problems = Zeile { $row }: { $photo }: { $told }

cli-row-which-fish = Zeile { $row }: { $photo } zeigt { $fish } brauchbare Fische, also muss eine Spalte fish sagen, welcher; 'fishmeasure photo --overlay' nummeriert sie

fit-row-other-fish = Zeile { $row } nennt Fisch "{ $given }", aber { $photo } hat Fisch 1 bis { $fish }

fit-row-unmeasured = Zeile { $row }: Fisch { $number } von { $photo } lässt sich nicht vermessen

cli-stock-saved = { $file } gespeichert: verwenden Sie es mit --species { $file }.

cli-length-kind = { $length_kind ->
    [total] Totallänge
    [standard] Standardlänge
   *[fork] Gabellänge
}

cli-fit-instructions = { $file } geschrieben: in beliebiger Größe drucken.

cli-fit-line = W = { $a } L^{ NUMBER($b, decimals: 4) } (g, cm { cli-length-kind }), { $fish_count } Fische von { NUMBER($least_mm, decimals: 0) }-{ AMOUNT($most_mm, decimals: 0) }

cli-fit-b = b ± { NUMBER($b_se, decimals: 3) } (Standardfehler), R2 { NUMBER($r_squared, decimals: 4) }

cli-fit-scatter = Einzelne Fische streuen um { PERCENT($share, decimals: 1) } darum; das Mittelgewicht bei einer Länge ist das { NUMBER($factor, decimals: 4) }fache der Linie (Smearing-Faktor: { NUMBER($smearing, decimals: 4) }).

cli-fit-left-out = Ein aus der Anpassung ausgelassener Fisch wird im Mittel auf { PERCENT($share, decimals: 1) } vorhergesagt.

cli-fit-outlier = Fisch { $number } liegt weit von der Linie: prüfen Sie seine Zahlen noch einmal.

fit-left = Ein Fisch von { $photo } ist ausgelassen: sein Umriss ist unsicher.

cli-body = W = { NUMBER($factor, decimals: 3) } V (g, cm3; V ist die quadrierte Höhe längs des Körpers), ± { PERCENT($share, decimals: 1) } nach { $fish } Fischen auf { $photos ->
        [one] 1 Foto
       *[other] { $photos } Fotos
    }

cli-heights = Maulspitze { NUMBER($snout, decimals: 2) } und Schwanzgabel { NUMBER($fork, decimals: 2) } der halben Dicke über dem Brett (± { NUMBER($snout_sd, decimals: 2) } und { NUMBER($fork_sd, decimals: 2) } von Foto zu Foto), nach { $fish } Fischen auf { $photos ->
        [one] 1 Foto
       *[other] { $photos } Fotos
    }; angenommen waren { NUMBER($usual_snout, decimals: 2) } und { NUMBER($usual_fork, decimals: 2) }.

cli-heights-told = Der Maßstab allein sagt { NUMBER($stiffness, decimals: 1) } ± { NUMBER($stiffness_se, decimals: 1) } auf einer Skala, auf der schlaffe Fische -2 und steife 2 sind.

cli-heights-hold = Sie gelten für Fische, die so liegen wie diese, ebenso lang nach dem Tod; messen Sie einige mit dem Maßstab nach, wenn sich das ändert.

cli-body-left-out = Ein aus der Anpassung ausgelassener Fisch wird aus den anderen im Mittel auf { PERCENT($share, decimals: 1) } bestimmt, aus der Länge allein auf { PERCENT($by_length, decimals: 1) }.

fit-one-photo = Alle sind auf einem Foto, mit demselben Licht und denselben Kanten: Fische von zwei oder mehr Fotos machten es sicherer.

fit-outlier = Fisch { $number } liegt weit von den anderen: prüfen Sie sein Gewicht noch einmal.

fit-holds = Es gilt für Fische im Zustand von diesen: nicht für laichreife, nach starkem Füttern oder mit aufgetriebenem Bauch, den kein Umriss von Fett unterscheidet.

fit-ripe = Diese Fische sind laichreif oder laichen: ihr Gewicht wird behalten, aber kein anderes Foto danach gewogen. Fotografieren und wiegen Sie fünf Fische, wenn das Laichen vorbei ist.

fit-heights = Maul und Gabel dieser Fische liegen bei { NUMBER($snout, decimals: 2) } und { NUMBER($fork, decimals: 2) } der halben Dicke, wo { NUMBER($usual_snout, decimals: 2) } und { NUMBER($usual_fork, decimals: 2) } angenommen waren.

fit-row-twice = Zeile { $row }: Fisch { $number } von { $photo } steht zweimal da

fit-row-nothing = Zeile { $row }: Fisch { $number } von { $photo } hat weder Gewicht noch Länge

cli-import-nothing = darin ist kein { $table }.csv oder dergleichen

cli-exported = { $entries } Einträge nach { $file } geschrieben

cli-imported = { $entries } Einträge hinzugefügt, { $repeated } waren schon da.

cli-no-book-yet = unter { $where } gibt es noch kein Bestandsbuch.

cli-saved-in = sind in { $where } gesichert

cli-back-in = { $case ->
    [apart] sind wieder in { $where }, das Bestandsbuch in { $book }
   *[together] sind wieder in { $where }
}

cli-backup = Das Bestandsbuch und { $photos } Fotos ({ NUMBER($size_mb, decimals: 1) } MB, alle geprüft) { $what }.

cli-backup-missing = { $photos ->
    [one] 1 Foto des Bestandsbuchs hat keine Datei: { $first }.
   *[other] { $photos } Fotos des Bestandsbuchs haben keine Datei, das erste ist { $first }.
}

cli-sample-entered = Ins Bestandsbuch eingetragen, Eintrag { $entry }.

cli-sample-joined = Mit allem anderen, was das Bestandsbuch von { $cohort } weiß, ist das mittlere Gewicht am { DAY($on) } { AMOUNT($mean_g, digits: 3) }.

cli-sample-netted = Bei { $cohort } sagen die Fische, die beim Besatz oder bei der Ernte gewogen und gezählt wurden, dass seine Proben { PERCENT($by, decimals: 1) } { $case ->
        [heavier] mehr
       *[lighter] weniger
    } wiegen als alle Fische (Tropfwasser und welche Fische gekeschert werden; { PERCENT($low, decimals: 1) } bis { PERCENT($high, decimals: 1) }). Die Antwort oben zieht das nicht ab, das Bestandsbuch tut es: { AMOUNT($less_g, decimals: 1) } statt { AMOUNT($mean_g, decimals: 1) }.

cli-sample-there = Schon im Bestandsbuch: die Probe vom { DAY($on) }, Eintrag { $entry }.

cli-figure = { $case ->
        [g] { AMOUNT($value_g, decimals: 0) } ({ NUMBER($low_g, decimals: 0) } bis { NUMBER($high_g, decimals: 0) })
        [kg] { AMOUNT($value_kg, decimals: 1) } ({ NUMBER($low_kg, decimals: 1) } bis { NUMBER($high_kg, decimals: 1) })
        [mm] { AMOUNT($value_mm, decimals: 0) } ({ NUMBER($low_mm, decimals: 0) } bis { NUMBER($high_mm, decimals: 0) })
        [cell-mm] { NUMBER($value_mm, decimals: 1) }
        [cell-g] { NUMBER($value_g, decimals: 0, bare: 1) }
        [cell-g-span] { NUMBER($span_g, bare: 1) }
        [cell-kg-span] { NUMBER($span_kg) }
        [cell-day] { DAY($on) }
        [cell-m3] { NUMBER($value_m3) }
        [cell-m2] { NUMBER($value_m2) }
        [cell-l-per-min] { NUMBER($value_l_per_min) }
        [middle] { NUMBER($low_g, decimals: 0) } bis { AMOUNT($high_g, decimals: 0) }
        [taken-off] { PERCENT($share, decimals: 1) }: { AMOUNT($off_g, decimals: 0) }
        [fish] { NUMBER($fish, decimals: 0, all: 1) }
       *[bare] { NUMBER($figure, decimals: 2, all: 1) }
    }

cli-columns = { $case ->
        [photo] Fisch | Gabell. { unit-mm } | ± { unit-mm } | Total { unit-mm } | Höhe { unit-mm } | Gewicht { unit-g } | Zweifel
        [plan] Fische je Kescher | Kescher | Fische gesamt | erwartet ± %
        [species] Art | a | b | K | Bereich mm | Niveau | Fische | Sicherheit
        [units] Einheit | Bauart | { unit-m3 } | Zulauf { unit-l-per-min } | Beet { unit-m2 } | Fassung
        [cohorts] Charge | Art | Herkunft | Fassung
        [entries] Datum | Eintrag | Einheit | Charge | Inhalt | Kennung
        [state] Einheit | Charge | Fische | Mittelgewicht { unit-g } | { unit-kg } | letzte Probe
       *[nets] Kescher | Fische | vermessen | Gewicht { unit-g } | gegen die übrigen | Zweifel
    }

cli-check = { $case ->
        [within] { AMOUNT($known_mm, decimals: 1) } gemessen als { AMOUNT($read_mm, decimals: 1) }, { PERCENT($off, decimals: 1) } zu { $way ->
                [long] lang
               *[short] kurz
            }. Ein solches Foto darf um { PERCENT($may, decimals: 1) } abweichen; Kamera, Bogen und Ort stimmen also.
        [water] { AMOUNT($known_mm, decimals: 1) } gemessen als { AMOUNT($read_mm, decimals: 1) }, { PERCENT($off, decimals: 1) } zu { $way ->
                [long] lang
               *[short] kurz
            }, und ein solches Foto sollte um höchstens { PERCENT($may, decimals: 1) } abweichen. Prüfen Sie die Höhe des Prüffisches über dem Bogen, den Druck (seine Prüfstrecke), dass der Bogen flach liegt und das Wasser ruht; machen Sie dann ein anderes Foto.
       *[air] { AMOUNT($known_mm, decimals: 1) } gemessen als { AMOUNT($read_mm, decimals: 1) }, { PERCENT($off, decimals: 1) } zu { $way ->
                [long] lang
               *[short] kurz
            }, und ein solches Foto sollte um höchstens { PERCENT($may, decimals: 1) } abweichen. Prüfen Sie die Höhe des Prüffisches über dem Bogen, den Druck (seine Prüfstrecke) und dass der Bogen flach liegt; machen Sie dann ein anderes Foto.
    }

cli-count = { $photo }: { $seen ->
        [one] 1 Fisch ({ $low } bis { $high })
       *[other] { $seen } Fische ({ $low } bis { $high })
    }

cli-it-says = Es heißt: { $told }

cli-what-to-do = Was zu tun ist: { $told }

cli-measuring = Vermessen

cli-field-day = on: Datum, etwa 2026-05-02; sonst heute

cli-field-name = Name: { record-word }

device-name = { $case ->
    [aerator] Belüfter
    [air-pump] Luftpumpe
   *[backup-air] Notbelüftung
}

cli-not-used = nicht verwendet

cli-photo-scale = { $method }, { NUMBER($px, decimals: 2) } px/mm, Neigung { NUMBER($tilt, decimals: 0) }°, Maßstab ± { PERCENT($scale_sd, decimals: 1) }

cli-photo-weight = Mittelgewicht { AMOUNT($value_g, decimals: 0) } ({ NUMBER($low_g, decimals: 0) } bis { NUMBER($high_g, decimals: 0) }), Korpulenzfaktor { NUMBER($condition, decimals: 2) } ({ NUMBER($least_condition, decimals: 2) } bis { NUMBER($most_condition, decimals: 2) })

cli-sample-title = { $where }, { PERCENT($level) }-Intervalle

cli-sample-unnamed = Probe

cli-sample-row = { $case ->
        [mean] Mittelgewicht in der Einheit
        [netted] der gekescherten Fische
        [drip] Tropfwasser, von den Keschern abgezogen
        [doubt] von ihrem Mittel abgezogen, da ein Kescher falsch sein kann
        [netting] vom Mittel abgezogen, da gekescherte Fische schwerer sind
        [spread] Streuung (CV)
        [middle] mittlere 80 % der Fische
        [length] mittlere Gabellänge
        [condition] Korpulenzfaktor K
        [level] Gewicht zu veröffentlichtem
       *[biomass] Biomasse
    }

cli-sample-fish = { $case ->
        [photos] { $measured } Fische vermessen ({ $seen } auf { $photos } Fotos gesehen), { $weighed } gewogen.
       *[weighed] { $measured } Fische vermessen, { $weighed } gewogen.
    }

cli-plan-title = Mittelgewicht auf { NUMBER($within) } %, { PERCENT($level) }-Intervall

cli-plan-typical = üblichen Werten

cli-sample-more = Das Mittel ist auf ± { PERCENT($now, decimals: 1) } bekannt; ein weiterer Kescher mit { $fish_count } Fischen brächte ± { PERCENT($then, decimals: 1) }.

cli-plan-from = Nach { $origin }: Fische eines Keschers streuen mit einem CV von { PERCENT($within_cv) }, Kescher darüber hinaus mit { PERCENT($between_cv) }. Eine Erwartung, kein Versprechen.

cli-sample-worth = { $verdict ->
    [enough] Für ± { PERCENT($aim) } ist kein weiterer nötig.
    [worth-it] Das lohnt sich: etwa { $nets } weitere bringen ± { PERCENT($aim) }.
   *[other] Weitere Kescher bringen kaum ± { PERCENT($aim) }: wiegen Sie einen gezählten Teil der Einheit.
}

cli-plan-time = Ein Kescher braucht { NUMBER($net_minutes) } min und ein Fisch { NUMBER($fish_minutes) } min: Kescher mit { $fish } Fischen sagen für die Zeit am meisten, { $nets } davon brauchen etwa { NUMBER($all_minutes, decimals: 0) } min.

cli-plan-strata = Aus den Teilen der Einheit { LIST($nets, between: " + ") } Kescher mit je { $fish } Fischen nehmen, in der genannten Reihenfolge: ± { PERCENT($half_width, decimals: 1) } für alle. Von jedem Teil eine Probe machen und die Mittelgewichte zusammenzählen, jedes mal seinen Anteil: eine Probe aller Kescher nimmt jeden Kescher für gleich viele Fische.

cli-plan-pilot = { $nets } Kescher sagen das nur grob, der Plan rechnet daher mit mehr: vier von fünf solchen Plänen halten die gezeigten ± %.

cli-plan-more = Diese Probe ergab ± { PERCENT($now, decimals: 1) }; ein weiterer Kescher mit { $fish_count } Fischen ergäbe etwa ± { PERCENT($then, decimals: 1) }.

cli-weigh-new = { $file } ist neu. Eine leere Antwort nimmt, was in Klammern steht, oder nichts.

cli-weigh-ask = { $case ->
    [date] Tag der Probe
    [unit] Einheit (Becken, Teich, Netzgehege)
    [species] Fische ('fishmeasure species' listet sie auf)
    [count] Fische in der Einheit, falls bekannt
    [scale] Ziffernschritt der Waage, in g
    [wet-tare] Wird der leere Kescher nass und abgetropft gewogen?
    [fish] Kescher { $number }: Fische darin (leer: kein weiterer Kescher; -: den letzten zurücknehmen)
    [gross] Kescher { $number } mit seinen Fischen, in { $unit } (1912; 1908: zweimal gewogen; leer: nicht gewogen)
    [tare] Der Kescher allein, in { $unit }
    [photos] Foto dieser Fische (a.jpg; b.jpg: zwei; leer: keines)
    [label] Wo gekeschert wurde, oder ein anderer Name
    [right] Ist das so richtig?
   *[now] Die Probe jetzt auswerten?
}

cli-weigh-net = { $net }: { $fish_count } Fische, { AMOUNT($weight_g, decimals: 0) }, { AMOUNT($mean_g, digits: 3) } je Fisch.

cli-weigh-so-far = Nach dem Wiegen allein ist das Mittel { $mean }.

cli-weigh-no-back = Davor wurde nichts gefragt; einen Kescher einer älteren Datei entfernen Sie von Hand.

cli-weigh-later = Alles steht in { $file }: fishmeasure sample { SHELL($file) }

cli-weigh-taken = { $nets ->
    [one] Ein Kescher steht
   *[other] { $nets } Kescher stehen
} jetzt in { $file }: fishmeasure sample { SHELL($file) }

cli-the-setting = Die Einstellung

cli-the-photo = Das Foto

cli-print-scale-kept = Druckmaßstab { NUMBER($print_scale) }, wie in 'fishmeasure settings' abgelegt.

farm-title = Der Betrieb am { DAY($on) }

farm-columns = Einheit | Fische | Mittelgewicht | Biomasse | Futter heute | Hälfte mit Portionsgröße | vollste Grenze

farm-cell = { $case ->
    [fish] { NUMBER($fish_count, decimals: 0) }
    [weight] { AMOUNT($mean_g) }
    [biomass] { AMOUNT($biomass_kg) }
    [feed] { AMOUNT($ration_kg, digits: 2) }
    [limit] { $limit } { PERCENT($used) }
   *[day] { DAY($on) }
}

farm-sum = In { $units } Einheiten: { NUMBER($fish_count, decimals: 0) } Fische, { AMOUNT($biomass_kg) }; Futter heute { AMOUNT($ration_kg) }.

farm-unknown = In { $units ->
    [one] einer weiteren Einheit
   *[other] { $units } weiteren Einheiten
} sind die Kilogramm nicht bekannt: nehmen Sie eine Kescherprobe.

farm-feed = { $case ->
    [left] Futter im Lager: { AMOUNT($left_kg) } von { AMOUNT($bought_kg) }, gekauft seit { DAY($since_on) }.
   *[short] Es wurden { AMOUNT($left_kg) } mehr Futter gegeben, als seit { DAY($since_on) } gekauft: ein Kauf fehlt.
}

farm-feed-lot = { $feed }{ $size ->
        [known] { " " }({ AMOUNT($pellet_mm) } Pellets)
       *[none] {""}
    }: noch { AMOUNT($left_kg) }.

farm-feed-days = Es reicht bei den heutigen Rationen etwa { $days } Tage.

farm-feed-buy = Für vier Wochen zu kaufen: { AMOUNT($buy_kg, end: "high") }.

farm-spent = Ausgegeben: { NUMBER($total, decimals: 2) } (Setzlinge { NUMBER($fingerlings, decimals: 2) }, Futter { NUMBER($feed, decimals: 2) }, übriges { NUMBER($other, decimals: 2) }).

farm-per-kg = Ein Kilogramm Fisch kostete { NUMBER($per_kg, decimals: 2) }: { AMOUNT($fish_kg) } leben oder wurden mit eingetragenem Gewicht entnommen.

register-title = Fischregister, { DAY($since) } bis { DAY($until) }

register-columns = Datum | Einheit | Charge | Vorgang | Fische | kg | nach | Bemerkung

register-kind = { $kind ->
    [stocked] Besatz
    [moved] Umsetzung
    [graded] Sortierung
    [died] Verluste
    [harvested] Ernte
    [sold] Verkauf
   *[treated] Behandlung
}

register-total = { $kind }: { $lines ->
    [one] eine Zeile
   *[other] { $lines } Zeilen
}, { $fish_count } Fische, { AMOUNT($weight_kg) }{ $without ->
    [0] .
   *[other] { " " }({ $without } ohne Gewicht).
}

order-fish = Bestellen Sie { NUMBER($fish_count, decimals: 0) } Setzlinge von { AMOUNT($size_g) }, etwa { AMOUNT($weight_kg, digits: 2) }, für { AMOUNT($harvest_kg) } mit { AMOUNT($plate_g) } am { DAY($harvest_on) }.

order-when = { $case ->
    [by] Sie müssen bis { DAY($by_on) } kommen{ $early ->
        [known] ; bis { DAY($early_on) }, wenn sie langsam wachsen.
       *[past] ; wachsen sie langsam, kommen sie schon heute zu spät.
    }
   *[never] Fische dieser Größe kommen schon heute zu spät.
}

order-survival = Angenommen ist, dass { PERCENT($low) } bis { PERCENT($high) } davon bis zur Ernte leben.

cli-settings-heading = Einstellungen der Befehlszeile: fishmeasure settings NAME=WERT

cli-setting = { $case ->
    [species] Fisch, der vermessen wird: Kennung einer Art, oder ihre Datei.
    [print_scale] Gedruckte Länge der Prüfstrecke des Bogens in mm / 100.
    [scale_resolution_g] Ziffernschritt der Waage, g.
    [wet_tare] Ob der leere Kescher nass und abgetropft gewogen wird.
    [units] Einheiten der Ausgaben und Eingaben: metrisch oder US-amerikanisch (us).
    [weight_unit] Einheit eines Gewichts, das ohne Einheit eingegeben wird.
   *[other] { $case }
}

cli-settings-kept = Abgelegt in { $file }.

cli-serve-open = Öffnen Sie { $url }

cli-serve-local = Nur dieser Rechner hat Zugang; --lan lässt Telefone zu.

cli-serve-plain = Über einfaches HTTP kann jeder in diesem Netz mitlesen und das Zugangszeichen eines gekoppelten Telefons abfangen; Telefone öffnen die Seite nicht ohne Netz, werfen vielleicht weg, was noch nicht gesendet ist, und zeigen kein Kamerabild in der Seite. Lassen Sie --plain für HTTPS weg, oder geben Sie --cert und --key an.

cli-serve-certificate = { $case ->
        [new] Ein Zertifikat für HTTPS wurde gemacht. Jedes Telefon installiert es einmal; das Bild unten führt zu den Schritten.
       *[known] Telefone, die das Zertifikat des Servers installiert haben, kommen gleich weiter.
    } Es bürgt allein für diesen Rechner und sein Netz. Fingerabdruck (SHA-256), zum Vergleich auf dem Telefon: { $fingerprint }

cli-serve-code = Kopplungscode für das nächste Telefon, als das des Eigentümers: { $code }

start-page = { $case ->
        [title] Dieses Telefon soll Ihrem Server vertrauen
        [why] Ihr Server spricht HTTPS mit einem Zertifikat, das er selbst gemacht hat. Installieren Sie es einmal: dann öffnet sich die Seite ohne Netz, behält, was Sie eintragen, bis es gesendet ist, und darf die Kamera benutzen.
        [certificate] 1. Zertifikat laden
        [iphone] iPhone und iPad
        [iphone-load] Öffnen Sie diese Seite in Safari, tippen Sie auf „Zertifikat laden“ und erlauben Sie es.
        [iphone-profile] Öffnen Sie die Einstellungen. Tippen Sie auf „Profil geladen“ oder auf Allgemein, dann „VPN und Geräteverwaltung“; tippen Sie auf das Profil und auf „Installieren“.
        [iphone-trust] Schalten Sie es in Einstellungen, Allgemein, Info, „Zertifikatsvertrauenseinstellungen“ ein.
        [iphone-back] Kommen Sie zu dieser Seite zurück und gehen Sie weiter.
        [android] Android
        [android-load] Tippen Sie auf „Zertifikat laden“. Es kommt zu Ihren Downloads.
        [android-settings] Öffnen Sie die Einstellungen und suchen Sie nach „CA-Zertifikat“. Meist steht es unter Sicherheit, „Verschlüsselung und Anmeldedaten“, „Zertifikat installieren“.
        [android-choose] Tippen Sie auf „CA-Zertifikat“, „Trotzdem installieren“, und wählen Sie die Datei fishmeasure.crt. Vorher verlangt das Telefon vielleicht eine Displaysperre.
        [android-back] Kommen Sie zu dieser Seite zurück und gehen Sie weiter, in Chrome.
        [on] 2. Weiter zum Server
       *[what] Das Zertifikat kann allein für die Namen und das Netz Ihres Servers bürgen, wovor das Telefon auch warnt. Wollen Sie sicher sein, dass es das Ihres Servers ist, vergleichen Sie seinen Fingerabdruck mit dem, der dort steht, wo der Server gestartet wurde.
    }

cli-sheet = Drucken Sie mit 100 % („Originalgröße“), und messen Sie dann die Prüfstrecke. Sie ist 100 mm lang; sind es 97 mm, geben Sie bei jedem Foto --print-scale 0.97 an.

cli-demo-there = Die Quellbecken sind schon in diesem Bestandsbuch.

cli-demo-try = Versuchen Sie: fishmeasure outlook "Tank A"{ $where }

cli-harvest = { DAY($on) }: die { $fish } größten Fische{ $size ->
        [over] , über { AMOUNT($smallest_g, digits: 3) }
       *[any] {""}
    }, { AMOUNT($taken_kg) }; { $left ->
        [some] es bleiben { $left_fish } Fische, { AMOUNT($left_kg) }
       *[none] keine bleiben
    }

cli-harvest-small = { $fish } Fische haben am { DAY($on) } noch nicht { AMOUNT($plate_g) }.

cli-harvest-none = An diesen Tagen sind keine Fische zu nehmen.

cli-harvest-all = Zusammen { $fish } Fische, { AMOUNT($taken_kg) }

cli-harvest-under = Ab { DAY($first_on) } werden Fische unter der Portionsgröße von { AMOUNT($plate_g) } genommen.

cli-harvest-short = { $fish } der verlangten Fische sind nicht da.

cli-species-columns = W = a L^b, W in g, L = Gabellänge in cm; K = 100 W / L^3 bei 25 cm.

cli-species-level = So weit kann ein nicht gewogener Bestand davon abweichen: wiegen Sie eine Kescherprobe.

cli-species-no-growth = Keine Zahlen zu Wachstum, Futter und Sauerstoff: was daraus folgt, wird für diese Art nicht beantwortet.

cli-species-lengths = Länge und Gewicht

cli-species-general = Speisefische allgemein

cli-species-part = { $case ->
    [shape] Gestalt
    [body] Körper
    [growth] Wachstum
    [feed] Futter
    [oxygen] Sauerstoff
    [limits] Grenzen
   *[water] Wasser
}

cli-species-figure = { $case ->
    [fork_per_total] Gabellänge zu Totallänge
    [standard_per_total] Standardlänge zu Totallänge
    [thickness_per_depth] Dicke zu Körperhöhe
    [depth_per_fork_length] Körperhöhe zu Gabellänge
    [snout_height] Maulspitze über dem Brett, je halbe Dicke
    [fork_height] Schwanzgabel über dem Brett, je halbe Dicke
    [snout_radius] Rundung der Maulspitze von oben (Radius), je halbe Dicke
    [c_g_per_cm3] Gewicht zu quadrierter Höhe längs des Körpers, g/cm³
    [stock_relative_sd] Streuung davon zwischen Beständen, Anteil
    [fish_relative_sd] Streuung davon zwischen Fischen, Anteil
    [squared_depth_per_cubed_length] Quadrierte Höhe längs des Körpers zu Gabellänge hoch drei
    [squared_depth_per_depth2_length] Quadrierte Höhe längs des Körpers zu Höhe im Quadrat mal Gabellänge
    [tgc_x1000] Thermischer Wachstumskoeffizient x 1000, g^(1/3) je Tagesgrad
    [optimum_temperature_deg_c] Wachstum nicht schneller über, °C
    [plate_size_g] Portionsgröße, g
    [fcr] Futterquotient
    [protein_percent] Protein des Futters, %
    [fed_factor] Sauerstoffverbrauch nach dem Füttern zu nüchtern, mal
    [density_kg_per_m3] Höchste Besatzdichte, kg/m³
    [min_saturation_percent] Sauerstoff, der zu dieser Dichte gehört, % Sättigung
    [feeding_low_deg_c] Frisst ab, °C
    [feeding_high_deg_c] Frisst bis, °C
    [act_low_deg_c] Verluste oder Gleichgewichtsverlust bei oder unter, °C
    [act_high_deg_c] Verluste oder Gleichgewichtsverlust bei oder über, °C
    [do_watch_mg_per_l] Warnwert des Sauerstoffs, mg/L
    [do_act_mg_per_l] Kritischer Wert des Sauerstoffs, mg/L
    [saturation_watch_percent] Sauerstoff beobachten über, % Sättigung
    [saturation_act_percent] Bei Sauerstoff handeln über, % Sättigung
    [ph_act_low] Bei pH handeln unter
    [ph_watch_low] pH beobachten unter
    [ph_watch_high] pH beobachten über
    [ph_act_high] Bei pH handeln über
    [unionised_ammonia_n_act_mg_per_l] Bei Ammoniak (NH3) handeln über, mg/L als N
    [nitrite_n_watch_mg_per_l] Nitrit beobachten über, mg/L als N bei 10 mg/L Chlorid
    [nitrite_n_act_mg_per_l] Bei Nitrit handeln über, mg/L als N bei 10 mg/L Chlorid
    [nitrate_n_watch_mg_per_l] Nitrat beobachten über, mg/L als N
   *[other] { $case }
}

cli-species-word = { $case ->
    [high] hoch
    [medium] mittel
    [low] gering
    [farmed] gehaltene
    [wild] wilde
    [exponential] exponentiell
   *[dome] kuppelförmig
}

cli-species-line = W = { $a } L^{ $b }, W in g, L = { cli-length-kind } in cm, { NUMBER($least_mm, decimals: 0) } bis { AMOUNT($most_mm, decimals: 0) }

cli-species-fork-line = W = { $a } FL^{ $b } nach der Gabellänge

cli-species-spread = Niveau ± { PERCENT($level) } für einen unbekannten Bestand, b ± { NUMBER($b_sd, decimals: 2) }, einzelne Fische ± { PERCENT($single) } um die Linie ihres Bestands

cli-species-stock = Fische: { $stock }; Sicherheit: { $confidence } ({ $origin })

cli-species-ration = { $case ->
    [chart] Ration: die Forellentabelle
   *[growth] Ration: Wachstum x Futterquotient
}

cli-species-oxygen = Sauerstoffverbrauch nüchterner Fische: { $form } mit der Temperatur, ± { PERCENT($share) }, { NUMBER($least_deg_c) } bis { AMOUNT($most_deg_c) }, { NUMBER($least_g) } bis { AMOUNT($most_g) } ({ $origin })

cli-saturation = Sättigung: { AMOUNT($full_mg_per_l, decimals: 2) }

cli-oxygen-use = Die Fische verbrauchen { AMOUNT($use_g_per_h) }

cli-oxygen-source = { $name }: { AMOUNT($brings_g_per_h) }

cli-oxygen-supply = Versorgung bei { AMOUNT($kept_mg_per_l) }: { AMOUNT($supply_g_per_h) }

cli-oxygen-settles = Der Sauerstoff kann sich so tief einstellen wie { AMOUNT($steady_mg_per_l, end: "low") }

cli-oxygen-carries = Nach dem Sauerstoff allein trägt die Versorgung mindestens { AMOUNT($most_kg, end: "low") } Fisch

cli-oxygen-balance = { $case ->
    [missing] Am unsicheren Ende fehlen { AMOUNT($balance_g_per_h, digits: 3) }
   *[spare] Am unsicheren Ende sind { AMOUNT($balance_g_per_h, digits: 3) } übrig
}

cli-outage-measures = { $name }: was bis zum kritischen Wert mindestens Zeit gewinnt:

cli-outage-held = Den Warnwert halten würden

cli-outage-air = eine Notbelüftung von { AMOUNT($air_g_per_h, end: "high") } Standardeintrag,

cli-outage-water = oder { AMOUNT($water_l_per_min, end: "high") } Frischwasser

cli-outage-load = Fisch, der { NUMBER($hours) } h überstünde: höchstens { AMOUNT($load_kg, end: "low") }

cli-taken-as-pumped = Gilt als gepumpt: bei Stromausfall kein neues Wasser; geben Sie --inflow-by-gravity an, wenn es von selbst zufließt.

cli-ask-temperature = { $unit }: welche Wassertemperatur hat sie über das Jahr? Ohne diese gilt die letzte Messung das ganze Jahr. Zwölf Zahlen ab Januar oder eine für eine Quelle: fishmeasure book change unit { SHELL($unit) } monthly_temperature_deg_c='[8.5]'

cli-ask-right = { $case ->
        [corrected] Stimmt es? y: so speichern; c: das berichtigte speichern; n: lassen.
       *[plain] Stimmt es? y: so speichern; n: lassen.
    }

cli-version = { $name }, Fassung { $version }

note-plate-size = Portionsgröße { AMOUNT($plate_g) }

## cli: help

help-words-usage = Aufruf:
help-words-options = Optionen
help-words-arguments = Angaben
help-words-commands = Befehle
help-words-options-metavar = [OPTIONEN]
help-words-command-metavar = BEFEHL [ANGABEN]...
help-words-default = sonst
help-words-required = nötig
help-words-help = Diese Hilfe zeigen.

help-backup-command = Bestandsbuch, Fotos und Objektivprofile in einer geprüften Datei sichern, auch während der Server läuft.
help-restore-command = Eine Sicherung einspielen, wenn sie ganz geprüft ist; vorher den Server anhalten.
help-batch-command = Viele Fotos vermessen; angehalten und neu gestartet, geht es weiter, wo es war.
help-export-command = Das ganze Bestandsbuch als eine JSON-Datei oder als CSV-Tabellen schreiben.
help-import-command = Hinzufügen, was eine Datei enthält; was schon im Bestandsbuch ist, bleibt.
help-units-command = Die Einheiten auflisten.
help-cohorts-command = Die Chargen auflisten.
help-entries-command = Die Einträge auflisten, die ältesten zuerst.
help-state-command = Zeigen, was in jeder Einheit ist: Zahl, Mittelgewicht und Kilogramm.
help-fields-command = Die Arten von Einträgen auflisten oder die Felder einer Art.
help-add-command = Eine Einheit, eine Charge oder einen Eintrag hinzufügen (mit heutigem Datum, wenn nicht on=2026-05-02).
help-change-command = Eine Einheit oder Charge ändern; die alte Fassung bleibt im Bestandsbuch.
help-correct-command = Einen berichtigten Eintrag anstelle eines falschen schreiben, der im Bestandsbuch bleibt.
help-cancel-command = Einen Eintrag zurücknehmen; er bleibt im Bestandsbuch, zählt aber nicht mehr.
help-explain-command = Sagen, was der Code eines Problems oder Fehlers bedeutet und was dazu gesagt wird.
help-fit-command = Einen Bestand an einzeln gewogene oder gemessene Fische anpassen, nach Längen oder Fotos.
help-lens-command = Das Objektiv eines Telefons einmal vermessen; das Profil schärft jedes Foto damit.
help-outlook-command = Eine Einheit auf einer Seite: Gewicht, Biomasse, Ernte, Futter, Grenzen, Ausfall.
help-demo-command = Ein eigenes Bestandsbuch mit den erfundenen Quellbecken füllen, zum Ausprobieren.
help-photo-command = Die Fische auf Fotos vermessen: Längen, und Gewichte nach ihren Umrissen.
help-plan-command = Sagen, wie viele Kescher das Mittelgewicht auf so viel Prozent genau ergeben.
help-sample-command = Mittelgewicht und Streuung aus Fotos und Sammelwägungen von Keschern schätzen.
help-serve-command = Die Telefonseite und die API bereitstellen, ohne --lan nur auf diesem Rechner.
help-sheet-command = Eine Seite zum Druck mit 100 % schreiben, und eine JSON-Datei mit ihren Maßen.
help-species-command = Die Arten auflisten, oder eine mit ihren Quellen und deren Sicherheit zeigen.
help-feed-command = Die Ration und die Kilogramm Futter für heute und die Tage voraus zeigen.
help-conversion-command = Den Futterquotienten eines Zeitraums zeigen, biologisch und wirtschaftlich.
help-growth-command = Das Wachstum an die Proben einer Charge anpassen; Gewichte und Tage der Portionsgröße voraus.
help-harvest-command = Zeigen, was Ernten der größten Fische bringen und übrig lassen, an Tagen oder wöchentlich.
help-ammonia-command = Das Ammoniak (NH3) einer Messung neben dem Grenzwert der Art zeigen.
help-nitrate-command = Zeigen, wohin Nitrat mit diesem Futter, Wasseraustausch und Pflanzenbeet geht.
help-plant-bed-command = Das Pflanzenbeet zeigen, das das Futter versorgt, und das Futter, das ein Beet aufnimmt.
help-oxygen-command = Den Sauerstoffverbrauch der Fische neben der Zufuhr zeigen, beim Warnwert.
help-outage-command = Zeigen, wie lange der Sauerstoff bei einem Ausfall reicht und was Zeit gewinnt.
help-stocking-command = Zeigen, wie nah jede Grenze ist, den Platz, oder wie viele Fische weg müssen.
help-app = Wie schwer sind die Fische? Aus Fotos und Sammelwägungen zu Mittelgewicht und Streuung.
help-version = Die Version zeigen.
help-units = Einheiten der Ausgaben und Eingaben, metric oder us; sonst FISHMEASURE_UNITS, sonst die aus 'fishmeasure settings'. JSON ist immer metrisch.
help-language = Sprache der Ausgaben, etwa de; sonst die der Umgebung.
help-data-option = Ordner des Servers; sonst FISHMEASURE_DATA_DIR, sonst Ihr eigener.
help-file = Die Sicherung, die entstehen soll, etwa montag.tar; keine wird überschrieben.
help-restore-file = Eine Sicherung, die 'fishmeasure backup' gemacht hat.
help-force = Das vorhandene Bestandsbuch ersetzen; es bleibt daneben erhalten.
help-source = Ordner mit Fotos, oder eine Textdatei mit einem Pfad je Zeile.
help-results = Datei für die Ergebnisse, eine Zeile JSON je Foto; was darin ist, bleibt.
help-workers = Gleichzeitig vermessene Fotos; sonst eines je Prozessorkern.
help-full = Auch Umrisse und Geometrie behalten: eine 40-mal so große Datei.
help-dask = Adresse eines Dask-Schedulers, um weitere Rechner zu nutzen.
help-book-app = Das Bestandsbuch: Einheiten, Chargen und datierte Einträge, die nie überschrieben werden.
help-target = DATEI.json, oder ein Ordner für CSV-Tabellen.
help-import-source = DATEI.json, eine CSV-Tabelle oder ein Ordner davon.
help-unit = Nur von dieser Einheit.
help-cohort = Nur von dieser Charge.
help-everything = Auch, was berichtigt oder zurückgenommen wurde.
help-on = Der Tag, 2026-05-02; sonst heute.
help-fields = FELD=WERT, etwa unit="Tank A" cohort=Trout fish_count=2; siehe `fishmeasure book fields ART`.
help-kind = unit, cohort oder eine Art von Eintrag.
help-change-kind = unit oder cohort.
help-name = Ihr Name.
help-entry = Kennung des falschen Eintrags, oder ihr Anfang.
help-cancel-entry = Kennung des Eintrags, oder ihr Anfang.
help-confirm = So speichern, auch was weit von dem liegt, was das Bestandsbuch erwartet.
help-note = Warum, für das Bestandsbuch.
help-book-option = Datei oder Adresse des Bestandsbuchs, etwa postgresql://host/name; sonst FISHMEASURE_BOOK, sonst Ihr eigenes.
help-code = Etwa no-marker; ohne Angabe alle.
help-table = CSV, eine Zeile je Fisch, mit weight_g (oder weight_kg) und length_mm (oder length_cm) und, wenn gemessen, depth_mm; oder mit photo, fish (seine Nummer, wo ein Foto mehrere zeigt) und weight_g, fork_length_mm am Maßstab gelesen, oder beidem.
help-species = Die Art des Bestands.
help-length = Welche Länge gemessen wurde.
help-save = Die eigene Artdatei des Bestands hierhin schreiben (.toml).
help-plot = Eine Grafik hierhin schreiben (.png, .pdf oder .svg).
help-instructions = Eine Seite zum Drucken hierhin schreiben (.pdf): fünf Fische fotografieren und wiegen.
help-photos = Fotos der Tafel von 'fishmeasure sheet lens-board'.
help-lens-name = Wie Sie dieses Telefon oder Objektiv nennen.
help-out = Datei für das Profil.
help-options-species = Name aus 'fishmeasure species', oder eine TOML-Datei Ihres Bestands; sonst die aus 'fishmeasure settings', oder rainbow-trout.
help-print-scale = Länge der gedruckten Prüfstrecke des Bogens in mm / 100: 0.97, wo sie 97 mm lang ist; sonst die aus 'fishmeasure settings', oder 1.
help-paper = Papier des gedruckten Bogens, A4, A3 oder Letter; sonst sagen es die Marker.
help-known = Ohne Marker: zwei Punkte im Foto, in Pixeln von oben links, und ihr Abstand.
help-water = Die Fische sind in einer Wanne mit Wasser, Bogen oder Karten auf ihrem Boden.
help-water-depth = Mit --water: von der Wasseroberfläche bis zum Bogen, { unit-mm }; macht Längen sicherer.
help-lens = Objektivprofil, das 'fishmeasure lens' geschrieben hat.
help-json-to = Die Zahlen als JSON schreiben; - für den Bildschirm.
help-csv-to = Die Fische als CSV schreiben; - für den Bildschirm.
help-overlay = Ordner für Bilder mit den eingezeichneten Fischen.
help-outlook-unit = Name der Einheit.
help-pdf = Die Seite zum Drucken in diese Datei schreiben.
help-hours = Stunden Ausfall, die die Fische überstehen sollen.
help-fingerlings = Gewicht von Setzlingen, die zugesetzt werden dürften, { unit-g }.
help-days = Tage voraus, für die Platz sein muss.
help-demo-on = Letzter Tag der erfundenen Daten, 2026-08-01; sonst heute.
help-photo-photos = Fotos mit einem gedruckten Marker im Bild.
help-within = Gewünscht: das Mittelgewicht auf ± so viel Prozent.
help-level = Wahrscheinlichkeit, dass das Intervall zutrifft: 0.9 sind 90 %.
help-fish-per-net = Nur Kescher mit so vielen Fischen.
help-count = Fische in der Einheit.
help-sample = JSON, das 'fishmeasure sample --json' von der letzten Probe schrieb: wie sehr Fische und Kescher sich unterscheiden; sonst übliche Werte.
help-cv = Streuung (CV) der Gewichte in einem Kescher: 0.25 sind 25 %.
help-between = Streuung (CV) zwischen Keschern darüber hinaus: 0.09 sind 9 %.
help-farm-command = Alle Einheiten zeigen, Futter im Lager, das Fischregister und was ein Kilogramm kostete.
help-farm-since = Erster Tag des Registers, etwa 2026-01-01; sonst vor einem Jahr.
help-farm-pdf = Betrieb und Register zum Drucken hierhin schreiben (.pdf).
help-fingerling-price = Preis eines besetzten Fisches, in Ihrer Währung; mit den beiden anderen folgen die Kosten eines Kilogramms.
help-feed-price = Preis eines Kilogramms Futter.
help-other-costs = Alle übrigen Kosten eines Monats: Strom, Wasser, Sauerstoff, Löhne.
help-order-command = Sagen, wie viele Setzlinge welcher Größe für eine Ernte zu bestellen sind, und wann.
help-order-kg = Gewünschte Kilogramm Fisch.
help-order-on = Tag der Ernte, etwa 2027-09-15.
help-order-temp = Wassertemperatur, °C, das ganze Jahr dieselbe.
help-order-unit = Anstelle davon: eine Einheit des Bestandsbuchs mit ihren Temperaturen.
help-order-plate = Gewicht eines Fisches bei der Ernte, g; sonst die Portionsgröße der Art.
help-order-size = Gewicht eines Setzlings bei der Lieferung, g.
help-order-survival = Wie viele von 100 Setzlingen bis zur Ernte leben; sonst 75 bis 95.
help-net-minutes = Minuten, die ein Kescher zum Keschern, Abtropfen und Wiegen braucht, ohne seine Fische.
help-fish-minutes = Minuten, die ein Fisch eines Keschers zum Zählen, Auslegen und Zurücksetzen braucht.
help-strata = Teile der Einheit (Tiefen, Orte), aus denen getrennt gekeschert wird: Anteile der Fische in Prozent wie 50/30/20, mit Mittelgewichten in g, wo bekannt, wie 50:180/50:220.
help-settings-command = Zeigen oder ändern, was andere Befehle nehmen, wenn nichts angegeben ist.
help-settings-words = Etwa print_scale=0.97; NAME= allein nimmt es zurück.
help-weigh-command = Eine Probe Kescher für Kescher abfragen und ihre Datei schreiben; jeder Kescher wird sofort behalten.
help-weigh-sample = Datei, die entsteht oder weitergeführt wird, wenn sie da ist.
help-weigh-table = Die Kescher aus dieser Tabelle nehmen (.csv: eine Zeile je Kescher) und nichts fragen.
help-sample-sample = SAMPLE.toml oder eine Tabelle (.csv): Kescher mit Wägungen und Fotos.
help-sample-species = Art, anstelle der in der Datei.
help-plots = Ordner für Grafiken von Gewichten und Längen.
help-record = Die Probe ins Bestandsbuch eintragen, als eine dieser Charge.
help-sample-save = Die eigene Artdatei des Bestands hierhin schreiben (.toml), wie das Wiegen fotografierter Kescher sie ergibt.
help-port = Port der Adresse.
help-lan = Telefone im lokalen Netz zulassen, durch Koppeln.
help-host = Adresse, auf der gewartet wird, 0.0.0.0 für alle, etwa hinter einem Proxy; Geräte werden dann gekoppelt.
help-prefix = Pfad, unter dem ein Proxy hierher weiterleitet, etwa /fish.
help-plain = Mit --lan: einfaches HTTP, ohne das eigene Zertifikat des Servers.
help-book = Datei oder Adresse des Bestandsbuchs; sonst FISHMEASURE_BOOK, sonst Ihr eigenes.
help-data = Ordner für Fotos und Bestandsbuch; sonst FISHMEASURE_DATA_DIR, sonst Ihr eigener.
help-cert = TLS-Zertifikat (PEM).
help-key = Privater TLS-Schlüssel (PEM).
help-serve-workers = Gleichzeitig vermessene Fotos.
help-sheet-kind = Der Bogen, vier lose Karten, eine Karte oder die Tafel für 'lens'.
help-sheet-paper = Papiergröße.
help-sheet-out = PDF, das entstehen soll; sonst nach Art und Papier benannt.
help-sheet-tub = Den Bogen und die Karten für eine Wanne mit Wasser schreiben, zum Laminieren.
help-sheet-dummy = Einen Fisch von 200 mm zum Ausschneiden schreiben, um Kamera und Wanne zu prüfen.
help-check-command = Kamera, Bogen und Wanne mit einem Prüffisch oder Fisch bekannter Länge prüfen.
help-check-photo = Ein Foto mit dem Bogen und dem Prüffisch im Bild.
help-check-length = Seine Länge von Maulspitze bis Schwanz am Maßstab, mm.
help-check-height = Wie hoch er über dem Bogen liegt, mm: sein Abstandhalter.
help-check-ends = Seine beiden Enden im Foto, in Pixeln, wo sie nicht gefunden werden.
help-count-command = Die Fische auf Fotos einer Wanne oder Schale zählen, auch Setzlinge.
help-count-photos = Fotos mit einem gedruckten Marker im Bild.
help-count-expected = Fische, die da sein sollten; es wird gesagt, wo die Fotos widersprechen.
help-every = Jede Seite in den Ordner --out schreiben.
help-species-name = Name einer Art, oder die TOML-Datei Ihres eigenen Bestands.
help-feed-days = Tage mit Futter.
help-feed = Gegebenes Futter, { unit-kg }.
help-start = Biomasse am Anfang, { unit-kg }.
help-end = Biomasse am Ende, { unit-kg }.
help-removed = Verkauft oder ausgesetzt, { unit-kg }.
help-dead = Verendet, { unit-kg }.
help-added = Besetzt oder eingesetzt, { unit-kg }.
help-growth-days = Tage voraus.
help-harvest-count = Fische der Charge.
help-take = DATUM=ZAHL der größten Fische; wiederholbar.
help-weekly = Anstelle von --take, jede Woche bis --until: eine Zahl von Fischen (60), Kilogramm (20kg) oder 'size': alle mit Portionsgröße.
help-from = Erster Tag von --weekly, 2026-05-02; sonst heute.
help-until = Letzter Tag von --weekly, 2026-10-31.
help-count-error = Standardfehler der Zahl, %.
help-tan = Gesamtammonium-Stickstoff (TAN), mg/L.
help-ph = pH.
help-tan-error = Standardfehler der Messung, %.
help-nitrate-feed = Futter am Tag, { unit-g }.
help-nitrate-start = Nitrat-Stickstoff jetzt, mg/L.
help-exchange = Ausgetauschtes Wasser, { unit-m3-per-day }.
help-protein = Protein des Futters, %; sonst das der Art.
help-bed = Pflanzenbeet, { unit-m2 }.
help-crop = Kultur oder Art des Beets: leafy, fruiting, raft oder nft.
help-species-argument = Etwa rainbow-trout; siehe 'fishmeasure species'.
help-biomass-error = Standardfehler der Biomasse, %.
help-salinity = Salzgehalt, g/kg.
help-temp = Wassertemperatur, { unit-deg-c }.
help-volume = Wasser, { unit-m3 }.
help-wind = Wind über dem Wasser, m/s.
help-fasted = Die Fische wurden seit dem Vortag nicht gefüttert.
help-plate-size = Portionsgröße, { unit-g }; sonst die der Art.
help-mean-weight = Mittelgewicht der Fische, { unit-g }.
help-biomass = Fisch in der Einheit, { unit-kg }.
help-depth = Mittlere Tiefe, { unit-m }; ohne sie bleibt die Oberfläche weg.
help-inflow = Zulauf, { unit-l-per-min }.
help-inflow-do = Sauerstoff des Zulaufs, mg/L; sonst 95 % Sättigung.
help-standard-transfer = Standard-Sauerstoffeintrag der Belüfter, g/h.
help-air = Luftpumpen: { unit-l-per-min } Luft insgesamt; oder --standard-transfer.
help-air-depth = Tiefe der Belüfter unter Wasser, { unit-m }.
help-bubbles = Blasen der Belüfter: fine, medium oder coarse.
help-altitude = Höhe über dem Meer, { unit-m }.
help-water-use = Sauerstoff, den Wasser und Boden verbrauchen, mg/L je Stunde.
help-cohort-options-sample = Ein Mittelgewicht: DATUM=GRAMM, oder DATUM=GRAMM/PROZENT mit seinem Standardfehler; einmal je Probe.
help-cohort-options-temp = Wassertemperatur das ganze Jahr, { unit-deg-c }; oder --monthly oder --wave.
help-monthly = Wassertemperaturen der zwölf Monate, ab Januar: 4,4,6,...
help-wave = Wassertemperatur als MITTEL,AMPLITUDE,TAG: 9,5,205 ist 4 bis 14 °C, am wärmsten am 205. Tag des Jahres.
help-cohort-options-cv = Streuung der Gewichte (CV): 0.25 sind 25 %.
help-oxygen = Sauerstoff im Wasser beim Ausfall, mg/L.
help-inflow-by-gravity = Der Zulauf läuft ohne Strom weiter.
help-cause = Nur dies: power, pump, blower, intake, device oder oxygen; sonst alles, was die Einheit hat.
help-backup-transfer = Notbelüftung: Standard-Sauerstoffeintrag, g/h.
help-backup-hours = Stunden, die der Akku der Notbelüftung reicht.
help-outage-hours = Zu überstehende Stunden: wie viele Fische würden es?
help-chart = Eine Grafik in diese Datei schreiben (.png, .svg oder .pdf).
help-stocking-ph = pH, für das Ammoniak.
help-density = Eigene Grenze der Besatzdichte, { unit-kg-per-m3 }; sonst die der Art.
help-condition = Korpulenzfaktor K, für Dichte- und Durchflussindex.
help-stocking-days = Tage voraus, die die Einheit ihre Fische fassen muss.

## api: the server's own errors

setting = { $name }={ QUOTED($value) } ist nicht { $wanted }.

busy = Der Server vermisst so viele Fotos, wie er kann.
    .advice = Nichts ist verloren: senden Sie das Foto in einigen Sekunden noch einmal.
    .meaning = Alle Arbeitsprozesse sind beschäftigt, und die Warteschlange ist voll.

workers-lost = Die Programme, die Fotos vermessen, wurden auf dem Server immer wieder beendet, vielleicht aus Speichermangel.
    .advice = Dem Foto fehlt nichts: senden Sie es in einer halben Minute noch einmal. Schlägt auch das fehl, schaffen Sie auf dem Server Speicher, oder starten Sie ihn neu.
    .meaning = Was Fotos vermisst, wurde von außen beendet; das Foto wurde nicht beurteilt.

disk-full = Der Datenträger des Servers ist voll, daher konnte das nicht aufbewahrt werden.
    .advice = Schaffen Sie am Server Platz, und senden Sie es noch einmal; nichts, was er bestätigt hat, ist verloren.
    .meaning = Für das Gesendete ist kein Platz.

storage-failed = Der Server kann seinen Datenträger nicht benutzen ({ $reason }), daher ging das nicht.
    .advice = Sehen Sie den Datenordner des Servers an, und versuchen Sie es noch einmal; nichts, was er bestätigt hat, ist verloren.
    .meaning = Der Datenträger des Servers verweigert Lesen oder Schreiben.

not-found = { $case ->
        [address] An dieser Adresse gibt es nichts.
       *[record] Nicht vorhanden: { record-word } { QUOTED($name) }.
    }
    .advice = { $case ->
        [address] Sehen Sie in der API-Beschreibung nach.
       *[record] Sehen Sie in der Liste nach.
    }
    .meaning = Etwas dieses Namens gibt es hier nicht.

conflict = Inzwischen geändert: { record-word }.
    .advice = Laden Sie neu, und wiederholen Sie die Änderung.
    .meaning = Jemand anderes hat es inzwischen geändert.

not-paired = Dieses Gerät ist nicht oder nicht mehr mit dem Server gekoppelt.
    .advice = Öffnen Sie die Adresse, die der Server zeigt, und geben Sie seinen Code ein, oder bitten Sie den Eigentümer um eine Einladung.
    .meaning = Das Gerät hat kein gültiges Zugangszeichen: es wurde nie gekoppelt, wurde getrennt oder zu lange nicht benutzt.

not-allowed = { $role ->
        [reader] Dieses Gerät darf alles ansehen und nichts ändern
       *[worker] Dieses Gerät darf eintragen, fotografieren und beproben, sonst nichts
    }; hierfür nötig: { $least ->
        [worker] Mitarbeiter oder Eigentümer
       *[owner] Eigentümer
    }.
    .advice = Lassen Sie es den Eigentümer tun, oder geben Sie diesem Gerät unter „Geräte“ eine andere Rolle.
    .meaning = Ein gekoppeltes Gerät verlangte, was seine Rolle nicht darf.

foreign-origin = Die Anfrage kam von einer Seite einer anderen Adresse.
    .advice = Öffnen Sie die Seite unter der eigenen Adresse des Servers.
    .meaning = Eine Seite von anderswo wollte schreiben.

unknown-host = Dieser Server heißt nicht { QUOTED($host) }.
    .advice = Verwenden Sie die Adresse, die er zeigt, oder nehmen Sie den Namen in die Einstellung HOSTS des Servers auf.
    .meaning = Die Anfrage ging an einen Namen, der nicht der dieses Servers ist.

wrong-code = Der Kopplungscode ist falsch oder zu alt.
    .advice = Geben Sie den neuesten Code ein, den der Server zeigt.
    .meaning = Ein Kopplungscode war falsch oder zu alt.

too-many-tries = Zu viele falsche Kopplungscodes.
    .advice = Warten Sie { $wait_s } s, und geben Sie dann den neuen Code ein, den der Server zeigt.
    .meaning = Falsche Kopplungscodes kamen zu oft.

photo-lost = Die Datei dieses Fotos ist auf dem Server weg oder beschädigt; was darin vermessen wurde, ist da.
    .advice = Senden Sie dasselbe Foto noch einmal, dann ist es wieder ganz, oder spielen Sie es aus einer Sicherung ein.
    .meaning = Die Datei eines aufbewahrten Fotos ist weg oder beschädigt.

photo-deleted = { $case ->
        [named] Dieses Foto wurde am { DAY($on) } von { $by } gelöscht
       *[unnamed] Dieses Foto wurde am { DAY($on) } gelöscht
    }; was darin vermessen wurde, ist aufbewahrt.
    .advice = Machen Sie ein anderes Foto; dieses wird nicht wieder angenommen.
    .meaning = Der Eigentümer hat die Datei eines Fotos gelöscht.

too-slow = Das Vermessen dieses Fotos dauerte länger als { $limit_s } s und wurde abgebrochen.
    .advice = Senden Sie es noch einmal, wenn weniger los ist, oder machen Sie ein anderes Foto.
    .meaning = Das Vermessen eines Fotos dauerte zu lange und wurde aufgegeben.

too-slow-upload = Der Upload dauerte länger als { $limit_s } s.
    .advice = Nichts ist verloren: senden Sie noch einmal, wo das Netz besser ist.
    .meaning = Eine Anfrage kam zu langsam.

too-many-photos = Ein Upload darf { $limit } Fotos haben.
    .advice = Senden Sie die übrigen in einem weiteren.
    .meaning = Ein Upload hat mehr Fotos, als der Server auf einmal annimmt.

no-estimate = Diese Probe ergibt noch kein Mittelgewicht.
    .advice = Wiegen Sie einen Kescher oder fügen Sie ein Foto mit vermessenen Fischen hinzu, und speichern Sie dann.
    .meaning = Die Probe hat keine Schätzung zum Zeichnen oder Eintragen.

no-nets = In dieser Probe ist noch kein Kescher.
    .advice = Keschern Sie einige Fische, zählen und wiegen Sie sie, oder fotografieren Sie sie neben dem Marker.
    .meaning = Die Probe hat noch keinen Kescher.

book-not-empty = Im Bestandsbuch steht schon etwas.
    .advice = Das Beispiel kommt in ein eigenes Bestandsbuch: nennen Sie dafür eine andere Datei.
    .page = Starten Sie den Server mit einem anderen, leeren Bestandsbuch, um das Beispiel zu sehen.
    .meaning = Das Beispiel würde sich mit dem Inhalt des Bestandsbuchs mischen.

invalid-request = { $field } { STOP($reason) }
    .advice = Berichtigen Sie die Anfrage; die API-Beschreibung nennt jedes Feld.
    .meaning = Ein Feld der Anfrage fehlt, ist unbekannt oder unbrauchbar.

bad-request = Die Anfrage ist nicht verständlich: { STOP($told) }
    .advice = Sehen Sie in der API-Beschreibung nach.
    .meaning = Die Anfrage lässt sich nicht zerlegen.

wrong-method = Diese Adresse nimmt { $method } nicht an.
    .advice = Sehen Sie in der API-Beschreibung nach.
    .meaning = Die Adresse nimmt diese Methode nicht an.

internal = Beim Server ist etwas Unvorhergesehenes fehlgeschlagen.
    .advice = Versuchen Sie es noch einmal; schlägt es wieder fehl, melden Sie es mit der Uhrzeit.
    .meaning = Beim Server ist etwas Unvorhergesehenes fehlgeschlagen.

## page: texts of the phone page (ids begin with page-)

## page: what the phone page itself says, figures already in the phone's units

page-back = Zurück
page-cancel = Abbrechen
page-done = Fertig
page-yes = Ja
page-loading = Einen Moment …
page-stale = Gezeigt wie zuletzt gesehen; der Server ist nicht erreichbar.
page-cautions = Vorsicht
page-tabs = Hauptseiten
page-tab-today = Heute
page-tab-waiting = Ausgang
page-tab-guide = Hilfe
page-tab-settings = Optionen

page-network-unreachable = Server nicht erreichbar. Machen Sie weiter; alles bleibt auf diesem Telefon.
page-version-newer = Es gibt eine neuere Fassung dieser Seite.
page-version-reload = Laden
page-error-title = Das ging nicht
page-error-full = Auf diesem Telefon ist kein Platz mehr, daher lässt sich nichts mehr aufbewahren. Schaffen Sie Platz, oder senden Sie, was wartet.
page-error-no-screen = Diese Seite gibt es nicht.
page-error-unreachable = Der Server ist nicht erreichbar.
page-error-unreachable-advice = Das wurde noch nicht angesehen, daher ist hier nichts davon aufbewahrt. Versuchen Sie es, wo es ein Netz gibt.
page-drawing-missing = Die Zeichnung lässt sich jetzt nicht zeigen.

page-state-waiting = wartet
page-state-sending = wird gesendet
page-state-measured = vermessen
page-state-asked = stimmt das?
page-state-refused = abgelehnt
page-state-saved = gespeichert

page-today-title = Heute
page-today-as-of = Stand { $when }. Was seither geschah, ist nicht dabei.
page-today-waiting = { $n } auf diesem Telefon
page-today-withdrawal = Kein Lebensmittel bis { $date }: { $product }.
page-today-withdrawal-open = Kein Lebensmittel, kein Ende bekannt: { $product }.
page-today-fed-of = Heute { $fed } von { $ration } gefüttert
page-today-fed = Heute { $fed } gefüttert
page-today-sample = Probe
page-today-water = Wasser
page-today-entered = Auf diesem Telefon eingetragen
page-today-more = { $n } weitere
page-today-farm = Der Betrieb
page-today-units-unknown = { $n ->
    [one] ohne { $n } Einheit, deren Fische nie gewogen wurden
   *[other] ohne { $n } Einheiten, deren Fische nie gewogen wurden
    }
page-today-ration = Futter für den Tag
page-today-store = Futter im Lager
page-today-store-unknown = kein Futterkauf eingetragen
page-today-lasts = reicht { $days } Tage
page-today-to-buy = für vier Wochen zu kaufen: { $value }
page-today-print = Der Betrieb zum Drucken (PDF)
page-where-here = auf diesem Telefon
page-where-sending = wird gesendet
page-where-sent = gesendet
page-where-refused = abgelehnt, siehe Ausgang
page-due-count = { $n ->
    [one] in { $n } Einheit ist etwas fällig
   *[other] in { $n } Einheiten ist etwas fällig
    }

page-quick-title = { $what }, { $unit }
page-quick-no-feed = Jetzt kein Futter geben
page-quick-fed = { $value } sind heute gegeben.
page-quick-ration-of = Die Ration ist die vom { $date }.
page-quick-protein = { $percent } % Eiweiß
page-quick-same-feed = Als Futter vom letzten Mal genommen: { $what }.
page-quick-ration = Ration { $value }
page-quick-rest = Noch zu geben { $value }
page-quick-last = Wie zuletzt { $value }
page-quick-need = Erst eine Zahl eingeben.
page-quick-which = Wählen Sie, wessen Fische.
page-quick-save = Speichern
page-quick-more = Datum, Notiz und mehr
page-quick-kept = { $what }, { $unit }: auf diesem Telefon behalten

page-remind = Erinnerungen
page-remind-how = Eine Meldung auf diesem Telefon, wenn etwas fällig ist, höchstens einmal am Tag und wenn Wasser schlecht wird. Sie kommt nur, solange diese Seite im Hintergrund offen ist; nichts geht über andere.
page-remind-cannot = Dieser Browser erlaubt es nur auf einer sicheren Seite (HTTPS) oder gar nicht. Was fällig ist, steht auf der ersten Seite.
page-remind-on = Auf diesem Telefon erinnern
page-remind-off = Nicht mehr erinnern
page-remind-is-on = Dieses Telefon erinnert Sie.
page-remind-denied = Der Browser hat es nicht erlaubt. Seine eigenen Einstellungen für diese Seite können es.
page-remind-title = { $n ->
    [one] Fällig in { $n } Einheit
   *[other] Fällig in { $n } Einheiten
    }

page-home-add = Einheit anlegen
page-home-empty = Hier schwimmt noch nichts
page-home-empty-how = Tragen Sie Ihr erstes Becken, Ihren Teich, Fließkanal oder Ihr Netzgehege ein. Größe und Wasser genügen für den Anfang.
page-home-demo = Mit erfundenen Becken umsehen
page-home-fish = { $count } { $species }
page-home-biomass = { $value } zusammen
page-home-sampled = { $n ->
    [one] gestern beprobt
   *[other] vor { $n } Tagen beprobt
    }
page-home-sampled-today = heute beprobt
page-home-unfinished = { $unit }: Probe nicht fertig
page-home-unfinished-nets = { $n ->
    [one] { $date }, { $n } Kescher
   *[other] { $date }, { $n } Kescher
    }
page-fish-count = { $shown } Fische

page-unit-gone = Diese Einheit ist nicht im Bestandsbuch.
page-unit-no-fish = Keine Fische eingetragen
page-unit-no-fish-how = Tragen Sie ein, welche Fische kamen und wie viele. Dann lässt sich eine Probe wiegen.
page-unit-unweighed = Noch nicht gewogen
page-unit-each = je Fisch
page-unit-count = Fische im Bestandsbuch
page-unit-sampled = Letzte Probe
page-unit-waiting = Unterwegs zum Server.
page-unit-stock = Besatz eintragen
page-unit-sample = Diese Einheit beproben
page-unit-which = Welche Fische beproben Sie?
page-unit-go-on = Probe fortsetzen
page-unit-go-on-of = Weiter mit der Probe, begonnen auf { $who }
page-unit-go-on-other = Weiter mit der Probe eines anderen Telefons
page-unit-history = Wachstum
page-unit-growth-alt = Mittelgewicht über die Zeit mit Intervallen und Vorausschau.
page-unit-distribution-alt = Streuung der Gewichte, Probe für Probe.
page-unit-more = Mehr zu dieser Einheit
page-unit-plan = Plan: Ernte, Futter, Platz, Ausfall
page-unit-book = Bestandsbuch
page-unit-print = Ausblick zum Drucken (PDF)
page-unit-grade = Nach Größe sortieren
page-unit-change = Größe und Wasser

page-unit-form-new = Neue Einheit
page-unit-form-change = { $unit }: Größe und Wasser
page-unit-form-how = Nötig sind Name, Volumen und Tiefe. Je mehr über das Wasser bekannt ist, desto besser werden die Sauerstoffzahlen.
page-unit-form-save = Einheit speichern
page-unit-form-label = Einheit { $unit }
page-kind-tank = Becken
page-kind-pond = Teich
page-kind-raceway = Fließkanal{ "\u00AD" }abschnitt
page-kind-cage = Netzgehege
page-unit-name = Name
page-unit-kind = Bauart
page-unit-volume_m3 = Wasservolumen
page-unit-depth_m = Wassertiefe
page-unit-inflow_l_per_min = Frischwasser
page-unit-inflow_l_per_min-hint = Stoppen Sie, wie lange ein 10-L-Eimer zum Füllen braucht: 600 durch die Sekunden.
page-unit-inflow_by_gravity = Frischwasser fließt ohne Strom zu
page-unit-inflow_by_gravity-hint = Nur ankreuzen, wenn keine Pumpe es hebt. Sonst wird bei Stromausfall mit keinem gerechnet.
page-unit-recirculated_l_per_min = Kreislaufwasser
page-unit-plant_bed_area_m2 = Pflanzenbeet
page-unit-water_system = Wie das Wasser rein gehalten wird
page-unit-water_system-hint = Entscheidet, welche Grenzwerte für Ammoniak und Nitrat gelten.
page-water_system-none = Nach den Angaben oben
page-water_system-flow-through = Durchfluss von neuem Wasser
page-water_system-pond = Teich
page-water_system-closed-loop = Geschlossener Kreislauf mit Biofilter
page-water_system-bed-loop = Geschlossener Kreislauf mit Pflanzenbeet
page-unit-biofilter_feed_kg_per_day = Futter am Tag, für das der Biofilter ausgelegt ist
page-unit-water_respiration_mg_per_l_h = Sauerstoffverbrauch von Wasser und Boden
page-unit-water_respiration_mg_per_l_h-hint = Für Teiche: um wie viel der Sauerstoff in einer Nachtstunde fällt, abzüglich des Verbrauchs der Fische.
page-unit-altitude_m = Höhe über dem Meer
page-unit-altitude_m-hint = Weiter oben hält Wasser weniger Sauerstoff.
page-unit-aerator = Belüfter
page-aerator-gas_l_per_min = Luftpumpe: Liter Luft je Minute
page-aerator-gas_l_per_min-hint = Wie aufgedruckt, bei der Tiefe des Ausströmers. Zwei Pumpen: beide zusammen.
page-aerator-diffuser_depth_m = Wasser über dem Ausströmer
page-aerator-depth-wrong = Geben Sie zu den Litern Luft die Tiefe des Ausströmers an.
page-aerator-bubbles = Blasen
page-bubbles-coarse = grob (Rohr, kiesgroßer Ausströmerstein)
page-bubbles-medium = mittel (Lochschlauch)
page-bubbles-fine = fein (wie Milch im Wasser)
page-aerator-standard_transfer_g_per_h = Belüfter: Sauerstoffeintrag in Reinwasser
page-aerator-standard_transfer_g_per_h-hint = Der Standardeintrag, wenn das Datenblatt einen nennt. Er gilt vor den Litern Luft.
page-aerator-on_backup = Der Belüfter läuft bei Stromausfall mit Akku
page-aerator-backup_hours = Stunden, die der Akku reicht
page-aerator-backup_hours-hint = Wie ausprobiert. Leer: nicht gerechnet.
page-unit-monthly = Wassertemperatur nach Monaten ({ $unit })
page-unit-monthly-hint = Zwölf Zahlen ab Januar, mit Leerzeichen dazwischen; eine Zahl für eine etwa gleichbleibende Quelle. Ohne sie gilt die letzte Messung das ganze Jahr.
page-unit-monthly-wrong = Geben Sie zwölf Temperaturen von Januar bis Dezember an, eine für das ganze Jahr oder keine.
page-unit-note = Bemerkung

page-stocking-title = Fische in { $unit }
page-stocking-save = Fische speichern
page-stocking-cohort = Charge { $name }
page-field-species_key = Art
page-stocking-name = Name dieser Charge
page-field-on = Datum
page-field-fish_count = Zahl der Fische
page-field-mean_weight_g = Mittelgewicht eines Fisches
page-field-plate_weight_g = Portionsgröße
page-field-cohort_id = Charge
page-field-to_unit_id = In Einheit
page-field-cause = Ursache, falls bekannt
page-field-feed_kg = Futter
page-field-feed_name = Name des Futters
page-field-pellet_mm = Pelletgröße, mm
page-field-product = Arzneimittel
page-field-withdrawal_days = Wartezeit, Tage
page-field-withdrawal_degree_days = Oder in Tagesgraden, °C x Tage
page-field-reason = Wogegen
page-field-protein_fraction = Protein im Futter
page-field-weight_kg = Gesamtgewicht
page-field-bulk_weight_kg = Gesamtgewicht
page-field-temperature_deg_c = Temperatur
page-field-do_mg_per_l = Gelöster Sauerstoff
page-field-ph = pH
page-field-tan_mg_per_l = Gesamt{ "\u00AD" }ammonium-Stickstoff (TAN)
page-field-nitrite_n_mg_per_l = Nitrit-Stickstoff (NO2-N)
page-field-nitrate_n_mg_per_l = Nitrat-Stickstoff (NO3-N)
page-field-alkalinity_mg_per_l = Alkalinität, als CaCO3
page-field-chloride_mg_per_l = Chlorid
page-field-ammonia_as_nh4_mg_per_l = Zeigt der Test NH4: Ammonium als NH4
page-field-ammonia_as_nh3_mg_per_l = Zeigt der Test NH3: Gesamtammonium als NH3
page-field-nitrite_as_no2_mg_per_l = Zeigt der Test NO2: Nitrit als NO2
page-field-nitrate_as_no3_mg_per_l = Zeigt der Test NO3: Nitrat als NO3
page-field-note = Bemerkung
page-form-optional = (freiwillig)
page-form-needs = Füllen Sie aus: { $fields }.
page-form-or = { $one }, oder { $other }
page-form-with = { $one } mit { $other }
page-form-needs-any = Geben Sie mindestens eine Zahl an.
page-form-range = { $label } ({ $from } bis { $to })
page-form-unclear = { $label } ({ $whole } oder { $decimal }?)
page-form-wrong = Prüfen Sie noch einmal: { $fields }.

page-sample-title = Probe, { $unit }
page-sample-gone = Diese Probe ist nicht mehr auf diesem Telefon.
page-sample-recorded = Im Bestandsbuch
page-sample-taken-back = Zurückgenommen am { $date }
page-sample-take-back = Diese Probe zurücknehmen
page-sample-take-back-sure = Diese Probe aus dem Bestandsbuch nehmen? Ihre Fotos und Kescher bleiben auf dem Server.
page-sample-take-back-write = Probe von { $unit } zurücknehmen
page-sample-begun = Begonnen auf { $who }
page-sample-begun-changed = Begonnen auf { $who }, zuletzt geändert auf { $last }
page-sample-clash = Kescher { $n } wurde auch auf einem anderen Telefon geändert. Jetzt steht dort { $theirs }; hier stand { $ours }. Bitte berichtigen, falls das falsch ist.
page-sample-closed-elsewhere = { $who } hat diese Probe inzwischen abgeschlossen. Was hier seither geändert wurde, ist nicht darin.
page-sample-answer = Antwort zeigen
page-sample-add-net = Weiterer Kescher
page-sample-tip = Mehrere Kescher von verschiedenen Stellen sagen mehr als ein voller.
page-sample-discard = Diese Probe verwerfen
page-sample-discard-sure = Diese Probe mit Fotos und Wägungen verwerfen?
page-sample-so-far = Bisher { $value } je Fisch
page-sample-updating = wird neu berechnet …
page-sample-weighed-so-far = { $value } je Fisch
page-sample-plain = { $n ->
    [one] Nur aus { $n } Wägung; das Intervall kommt vom Server.
   *[other] Nur aus { $n } Wägungen; das Intervall kommt vom Server.
    }
page-net-title = Kescher { $n }
page-net-photograph = Fotografieren
page-net-choose = Fotos wählen
page-net-weigh = Kescher wiegen
page-net-weigh-again = Wägung ändern
page-net-mean = { $value } je Fisch
page-net-unweighed = nicht gewogen
page-net-remove = Kescher { $n } entfernen
page-net-remove-sure = Diesen Kescher mit Fotos und Wägung entfernen?

page-tub-choice = In der Wanne: lebend, im Wasser, Bogen oder Karten auf ihrem Boden
page-tub-water_depth_mm = Wassertiefe, { $unit }
page-tub-water_depth_mm-hint = Von der Oberfläche bis zum Bogen; leer lassen, wenn Sie sie nicht messen können.
page-tub-scale_division_g = Ziffernschritt der Waage, { $unit }
page-tub-scale_division_g-hint = Was die Waage unter der Wanne nach 0 als Nächstes zeigt. Ihre Tara ist die Wanne mit ihrem Wasser.
page-tub-caution = Minuten, nicht länger; Wasser aus ihrer eigenen Einheit, belüftet; beobachten Sie die Fische, und hören Sie auf, wenn sie nach Luft schnappen oder kippen. Nicht mehr als 0,1 kg Fisch je Liter, in warmem Wasser die Hälfte, und binnen 5 Minuten zurück.

page-weigh-title = Kescher { $n } wiegen
page-weigh-fields = Was die Tasten füllen
page-weigh-gross = Kescher mit Fischen
page-weigh-tare = Nasser Kescher allein
page-weigh-fish = Fische darin
page-weigh-next = Weiter: { $field }
page-weigh-save = Wägung speichern
page-weigh-how = Lassen Sie jedes Mal gleich lang abtropfen, dann ablesen.
page-weigh-seen = { $n ->
    [one] Das Foto zeigt { $n } Fisch.
   *[other] Die Fotos zeigen { $n } Fische.
    }
page-weigh-differs = { $n ->
    [one] Das Foto zeigt { $n }.
   *[other] Das Foto zeigt { $n }.
    }
page-weigh-result = { $net } Fisch, je { $mean }.
page-weigh-need-gross = Geben Sie den Kescher mit Fischen ein.
page-weigh-need-count = Geben Sie ein, wie viele Fische darin sind.
page-weigh-tare-too-much = Der Kescher allein kann nicht so viel wiegen wie der Kescher mit Fischen.
page-pad-title = Zifferntasten
page-pad-erase = Löschen
page-pad-point = Dezimalkomma
page-pad-unit = in { $unit } – ändern

page-look-title = Kescher fotografieren
page-look-starting = Die Kamera startet.
page-look-none = Kein Marker zu sehen. Ist der Bogen im Bild und scharf?
page-look-night = Zu dunkel, um einen Marker zu sehen.
page-look-missing = { $n } von { $of } Markern im Bild.
page-look-tilted = Etwa { $deg }° geneigt. Halten Sie das Telefon waagerecht.
page-look-far = Zu weit weg. Gehen Sie näher heran.
page-look-dark = Zu dunkel. Machen Sie Licht.
page-look-bright = Zu hell. Beschatten Sie die Fische.
page-look-blurred = Unscharf. Halten Sie still oder wischen Sie die Linse ab.
page-look-moving = Halten Sie still.
page-look-good = Bogen gut zu sehen, Bildbreite { $width }. Alle Fische im Bild?
page-look-taking = Das Foto wird aufgenommen.
page-look-taken = Das Foto ist aufgenommen.
page-look-shutter = Aufnehmen
page-look-auto = Von selbst aufnehmen, wenn der Bogen gut zu sehen ist
page-look-own = Kamera des Telefons
page-look-own-what = Die Kamera in der Seite zeigt vor der Aufnahme, ob die Marker im Bild,
    waagerecht und scharf sind.
page-look-own-always = Stattdessen die Kamera des Telefons nehmen
page-look-own-how = Fotografieren Sie mit der Kamera des Telefons; es fehlen nur die Hinweise vor
    der Aufnahme.
page-look-refused = Der Browser lässt diese Seite die Kamera nicht benutzen.
page-look-absent = Der Browser gibt dieser Seite keine Kamera.
page-look-slow = Keine Hinweise: Dieses Telefon ist dafür zu langsam.
page-photo-title = Foto
page-photo-alt = Foto der Kescherprobe
page-photo-no-picture = Das Bild lässt sich nicht zeichnen oder laden. Längen und Gewichte gelten, wie sie sind.
page-photo-gone = Dieses Foto ist nicht mehr auf diesem Telefon.
page-photo-this = dieses Foto
page-photo-twice = Dieses Foto ist schon in dieser Probe.
page-photo-twice-advice = Entfernen Sie es hier; seine Fische zählen einmal.
page-photo-measuring = Fische werden vermessen.
page-photo-measured = { $n } Fische gefunden.
page-photo-pending = Ihre Änderungen sind unterwegs.
page-photo-unusable = Machen Sie dieses Foto noch einmal
page-photo-could-be-better = Dieses Foto könnte besser sein
page-photo-retake = Neu fotografieren
page-photo-remove = Dieses Foto entfernen
page-photo-remove-sure = Dieses Foto aus dem Kescher entfernen?
page-photo-delete = Das Bild endgültig löschen
page-photo-delete-sure = Dieses Bild endgültig vom Server löschen? Was darin vermessen wurde, bleibt, und auch, wer es gelöscht hat. Frühere Sicherungen haben es noch.
page-photo-deleted = Das Bild wurde am { $on } gelöscht ({ $name }). Was darin vermessen wurde, bleibt.
page-photo-scale-by-hand = Maßstab von Hand angeben
page-photo-add = Fisch fehlt
page-photo-weigh = Kescher wiegen
page-photo-error = ± ist ein Standardfehler.
page-photo-outline = Gewichte wie { $species }, nach der Höhe jedes Körpers neben seiner Länge: Standardfehler etwa 15 %.
page-photo-book = Gewichte wie { $species } nach der Länge, allein aus der veröffentlichten Beziehung: Standardfehler 25 %.
page-photo-weigh-net = Wiegen Sie den Kescher.
page-photo-near = Bis auf die Pixel heran
page-photo-whole = Das ganze Foto zeigen
page-photo-look-doubtful = Unsichere Fische ansehen
page-photo-next-doubtful = Nächster unsicherer
page-photo-used = { $n } verwendet
page-photo-doubtful = { $n } unsicher
page-photo-out = { $n } nicht verwendet
page-fish-title = Fisch { $n }
page-fish-not-used = nicht verwendet
page-fish-drag = Ziehen Sie Maulspitze und Schwanzgabel dorthin, wo sie hingehören.
page-fish-measuring-again = wird neu vermessen …
page-fish-leave-out = Auslassen
page-fish-use = Verwenden
page-fish-species = Art
page-fish-undo = Rückgängig
page-handle-snout = Maulspitze: ziehen, oder Pfeiltasten verwenden
page-handle-fork = Schwanzgabel: ziehen, oder Pfeiltasten verwenden
page-handle-snout-short = M
page-handle-fork-short = G
page-add-title = Fehlenden Fisch hinzufügen
page-add-first = Tippen Sie auf die Maulspitze
page-add-second = Tippen Sie auf die Schwanzgabel
page-add-how = Lassen Sie den Finger liegen, um es vergrößert zu sehen; es zählt beim Loslassen.
page-scale-title = Maßstab von Hand
page-scale-first = Tippen Sie auf ein Ende einer bekannten Strecke
page-scale-second = Tippen Sie auf ihr anderes Ende
page-scale-how = Ein Maßstab oder eine Brettkante auf Höhe der Fische. Lang ist besser als kurz.
page-scale-distance = Wie lang ist sie?
page-scale-save = Damit vermessen
page-species-choose = Welche Art ist es?

page-answer-title = Antwort, { $unit }
page-answer-nothing = Fotografieren oder wiegen Sie zuerst einen Kescher.
page-answer-waiting = Der Server rechnet die Antwort aus, sobald er erreichbar ist.
page-answer-kept = Fotos und Wägungen sind auf diesem Telefon sicher.
page-answer-mean = Mittelgewicht
page-answer-interval = { $range } mit { $percent } % Sicherheit
page-answer-from = Aus { $weighed } in Keschern gewogenen und { $measured } auf Fotos vermessenen Fischen
page-answer-chain = Diese Probe: { $own }; mit allen davor: { $all }.
page-answer-taken-off = { $name ->
        [drip] Tropfwasser, von den Keschern abgezogen: { $percent } %, { $grams }.
        [doubt] Vom Mittel der gekescherten Fische abgezogen, da ein Kescher falsch sein kann: { $percent } %, { $grams }.
       *[netting] Vom Mittel abgezogen, da gekescherte Fische schwerer sind: { $percent } %, { $grams }.
    }
page-answer-spread = Streuung
page-answer-spread-alt = Wie die Gewichte der Fische streuen.
page-answer-cv = Variations{ "\u00AD" }koeffizient
page-answer-small = 10. Perzentil
page-answer-large = 90. Perzentil
page-answer-fork-length = Mittlere Gabellänge
page-answer-condition = Korpulenz{ "\u00AD" }faktor
page-answer-biomass = Biomasse
page-answer-for-count = für { $n } Fische
page-answer-nets = Die Kescher
page-answer-next = { $verdict ->
        [enough] Der Mittelwert ist auf ±{ $now } % bekannt: für ±{ $percent } % ist kein weiterer Kescher nötig.
        [worth-it] Der Mittelwert ist auf ±{ $now } % bekannt. Ein weiterer Kescher mit { $fish } Fischen lohnt sich und bringt ±{ $then } %; etwa { $n } weitere bringen ±{ $percent } %.
       *[other] Der Mittelwert ist auf ±{ $now } % bekannt; weitere Kescher bringen ±{ $percent } % kaum. Wiegen Sie einen gezählten Teil der Einheit.
    }
page-answer-save = Ins Buch eintragen
page-answer-saving = Wird gespeichert, von selbst, sobald der Server erreichbar ist.
page-answer-saved = Ins Bestandsbuch gespeichert.
page-answer-to-unit = Zur Einheit

page-chart-how = Berühren Sie das Diagramm für seine Werte; auf der Tastatur die Pfeiltasten.
page-chart-of = Werte vom { $date }.
page-chart-sample = Probe
page-chart-forecast = Prognose
page-chart-ahead = { $cohort }: Prognose mit Intervall
page-chart-samples = { $cohort }: Proben
page-chart-plate = Portionsgröße { $weight }
page-chart-sizes = Gewichte der Fische heute, gegen die Portionsgröße
page-chart-fish = Fische
page-chart-x = Gewicht eines Fisches, { $unit }
page-chart-load = Biomasse voraus gegen die nächste Grenze
page-chart-load-limit = Nächste Grenze: { $limit }; sicher darunter bis { $safe }, wahrscheinlich bis { $likely }
page-chart-limit-density = Besatzdichte
page-chart-limit-density-index = Dichteindex
page-chart-limit-flow-index = Durchflussindex
page-chart-limit-oxygen = Sauerstoffversorgung
page-chart-limit-ammonia = Ammoniak
page-chart-limit-safe = Sicher unter der Grenze
page-chart-limit-likely = Wahrscheinliche Grenze
page-chart-oxygen = Sauerstoff nach: { $what }
page-chart-after = Nach { $hours } h
page-chart-oxygen-expected = Sauerstoff mit Intervall
page-chart-caution = Vorsicht { $value } mg/L
page-chart-critical = Kritisch { $value } mg/L

page-plan-title = Plan, { $unit }
page-plan-kept = Werte von { $when }; andere rechnet der Server, sobald er erreicht wird.
page-plan-unknown = Das lässt sich jetzt nicht sagen; was fehlt, steht oben.
page-plan-harvest = Ernte nach Wochen
page-plan-feed = Futter
page-plan-room = Platz für Setzlinge
page-plan-outage = Stromausfall und andere Ausfälle
page-plan-harvest_weeks = Wochen der Ernte
page-plan-harvest_count = Größte Fische, je Woche entnommen
page-plan-feed_days = Tage zu füttern
page-plan-room_days = Tage, die der Platz reichen muss
page-plan-fingerling_weight_g = Gewicht eines Setzlings
page-plan-outage_hours = Stunden, die zu überstehen sind
page-plan-weeks = { $n ->
    [one] { $n } Woche
   *[other] { $n } Wochen
    }
page-plan-days = { $n ->
    [one] { $n } Tag
   *[other] { $n } Tage
    }
page-plan-short = Es sind { $n } Fische weniger da als verlangt.
page-plan-room-note = { $value } jetzt; bis { $date } wird wohl keine Grenze überschritten.
page-plan-take-out = Kein Platz: { $n } Fische müssen bis { $date } hinaus; dann kann eine Grenze überschritten werden.
page-plan-outage-note = Fisch leben sicher so lange nach: { $what }. Wahrscheinlich { $likely }.
page-plan-now = Jetzt in der Einheit
page-plan-critical = Damit bis { $value } mg/L, mindestens

page-upload-progress = An den Server gesendet
page-upload-percent = { $n } % gesendet
page-upload-measuring = wird gemessen …

page-now-measure = Wassermessung eintragen
page-now-waits = bis das Wasser besser ist: { $what }
page-now-about-oxygen = Sauerstoff
page-now-about-temperature = Temperatur
page-now-about-ammonia = Ammoniak
page-now-about-nitrite = Nitrit
page-now-about-alkalinity = Alkalinität
page-now-about-ph = pH
page-now-about-nitrate = Nitrat
page-now-no-feed = keines
page-now-no-room = keiner
page-now-handling = Keschern, Beproben, Sortieren
page-now-no-handling = jetzt nicht
page-now-read-first = Messen Sie Temperatur und Sauerstoff, bevor Fische dazukommen.
page-outlook-title = Was das heißt
page-outlook-level = Bereiche gelten mit { $percent } % Sicherheit; „bis“, „binnen“ und „mindestens“ nennen ihre Enden.
page-outlook-feed = Futter heute
page-outlook-feed-week = { $value } in den nächsten sieben Tagen
page-outlook-plate = Hälfte mit Portionsgröße ({ $weight })
page-outlook-in-days = { $n ->
    [one] morgen
   *[other] in { $n } Tagen
    }
page-outlook-now = jetzt
page-outlook-later = später als absehbar
page-outlook-beyond = nicht binnen zweier Jahre
page-outlook-half-between = { $from } bis { $to }
page-outlook-first = die ersten: { $date }
page-outlook-last = fast alle: { $date }
page-outlook-ready = Fische mit Portionsgröße jetzt
page-outlook-about = etwa { $value }
page-outlook-surely = { $value } davon sicher
page-outlook-none-sure = vielleicht keine: die Gewichte sind nicht genau genug bekannt
page-outlook-conversion = Futterquotient bisher
page-outlook-condition = Korpulenz
page-outlook-factor = Korpulenzfaktor { $value } ({ $low } bis { $high })
page-condition-low = niedrig
page-condition-normal = normal
page-condition-high = hoch
page-outlook-grade = Sortieren lohnt sich
page-outlook-grade-at = unter { $small }, über { $large }
page-outlook-limit = Grenze { $name }, erreicht
page-limit-oxygen = Sauerstoff{ "\u00AD" }versorgung, genutzt
page-limit-density = Besatzdichte, genutzt
page-limit-ammonia = Ammoniak-Grenzwert, erreicht
page-outlook-up-to = bis { $value }
page-outlook-room = Noch Platz
page-outlook-room-note = bis zur ersten Grenze
page-outlook-take-out = Herauszunehmende Fische
page-outlook-take-out-note = damit bis { $date } keine Grenze überschritten wird
page-outlook-likely = wahrscheinlich { $value }
page-outlook-outage = { $what }: handeln
page-outlook-act-within = binnen { $time }
page-outlook-pumped = gilt als gepumpt: bei Stromausfall kein neues Wasser; ändern Sie die Einheit, wenn es von selbst zufließt
page-outlook-to-critical = { $value } mg/L Sauerstoff, kritisch: wahrscheinlich nach { $likely }, höchstens { $most }
page-outlook-to-caution = { $value } mg/L, Warnwert: binnen { $time }
page-outlook-helps = { $what } gewinnt mindestens { $time }
page-outlook-no-hours = { $what }: { $note }
page-outlook-not-within-a-day = nicht binnen eines Tages
page-time-minutes = { $n } min
page-time-hours = { $hours } h { $minutes } min
page-time-day-or-more = ein Tag oder mehr

page-book-title = Bestandsbuch, { $unit }
page-book-add = Neuer Eintrag
page-book-empty = Für diese Einheit ist noch nichts eingetragen.
page-entry-stocked = Besatz
page-entry-died = Verluste
page-entry-harvested = Geerntet
page-entry-sold = Verkauft
page-entry-moved = Umgesetzt
page-entry-graded = Sortiert
page-entry-counted = Gezählt
page-entry-sample = Probe
page-entry-stock-measured = Fische fotografiert und gewogen
page-entry-spawning = Laichreif oder laichend
page-entry-feed = Gefüttert
page-entry-feed-bought = Futter gekauft
page-entry-treated = Behandlung
page-entry-water = Wasser{ "\u00AD" }messung
page-entry-cancelled = Zurück{ "\u00AD" }genommen
page-entry-mean = { $value } je Fisch
page-entry-to = nach { $unit }
page-entry-by = von { $name }
page-entry-show-sample = Fotos, Kescher und Warnungen
page-grading-group = Gruppe { $n }
page-grading-stays = Bleibt in { $unit }
page-grading-to_unit_id = Wohin sie kommt
page-grading-fish_count = Fische
page-grading-fish_count_sd = Kann abweichen um
page-grading-weight_kg = Alle zusammen
page-grading-mean_weight_g = Jeder im Mittel
page-grading-add = Gruppe hinzufügen
page-grading-remove = Gruppe { $n } entfernen
page-grading-how = Zählen Sie, was geht; ein Gewicht je Gruppe genügt, oder keines. Zählen Sie auch, was bleibt, wenn Sie können: dann zählt das Sortieren die Einheit neu.
page-grading-no-other = Es gibt keine andere Einheit für eine Gruppe.
page-grading-sizes = 10. Perzentil { $small } ({ $small_length }), 90. Perzentil { $large } ({ $large_length }).
page-grading-advised = Sie streuen weit genug, dass sich Sortieren lohnt.
page-grading-not-advised = Sie liegen nah beieinander: Sortieren lohnt jetzt kaum.
page-grading-check = Prüfen
page-grading-nothing-goes = Geben Sie mindestens eine Gruppe an, die in eine andere Einheit kommt.
page-grading-same-unit = Zwei Gruppen kommen in dieselbe Einheit: machen Sie eine daraus.
page-grading-stay-uncounted = Zählen Sie auch die, die bleiben, oder lassen Sie ihr Gewicht leer.
page-grading-together = { $shown } Fische insgesamt; im Bestandsbuch stehen { $book }.
page-grading-far = Das liegt außerhalb des Bereichs im Bestandsbuch. Zählen Sie noch einmal, oder suchen Sie nach Fischen, die unbemerkt verendet oder weg sind.
page-grading-rest = { $rest } bleiben nach dem Bestandsbuch, abzüglich derer, die gehen.
page-grading-too-many = Es gehen mehr, als im Bestandsbuch stehen ({ $book }). Zählen Sie noch einmal.
page-grading-mean = { $mean } je Fisch über alle Gruppen; im Bestandsbuch stehen { $book }.
page-grading-mean-far = Das liegt außerhalb des Bereichs im Bestandsbuch. Prüfen Sie die Gewichte noch einmal.
page-grading-rest-mean = Die bleiben, haben dann { $mean } je Fisch.
page-grading-rest-mean-odd = Die Gewichte passen nicht: es blieben { $mean } je Fisch. Prüfen Sie sie noch einmal.
page-grading-room = { $weight } nach { $unit }, wo Platz für { $room } ist.
page-grading-no-room = { $weight } nach { $unit }, wo bis zur ersten Grenze Platz für { $room } ist.
page-grading-full = { $weight } nach { $unit }, wo die Grenze schon erreicht ist.
page-grading-after = Beproben Sie bald jede Einheit: Sortieren ändert, wie weit die Gewichte streuen.
page-entry-correcting = Sie berichtigen einen Eintrag. Der alte bleibt verzeichnet, zählt aber nicht mehr.
page-entry-save = Eintrag speichern
page-entry-save-correction = Berichtigung speichern
page-entry-take-back = Diesen Eintrag zurücknehmen
page-entry-take-back-sure = Diesen Eintrag zurücknehmen? Er bleibt verzeichnet, zählt aber nicht mehr.
page-reading-temperature_deg_c = { $value }
page-reading-do_mg_per_l = { $value } Sauerstoff
page-reading-ph = pH { $value }
page-reading-tan_mg_per_l = { $value } TAN
page-reading-nitrite_n_mg_per_l = { $value } Nitrit-N
page-reading-nitrate_n_mg_per_l = { $value } Nitrat-N
page-reading-alkalinity_mg_per_l = Alkalinität { $value }
page-reading-chloride_mg_per_l = { $value } Chlorid

page-ask-title = Stimmt das?
page-ask-outside = { $entered } ist eingetragen; zu erwarten: { $expected } ({ $low } bis { $high }).
page-ask-too-much = { $entered } ist eingetragen; nach dem Bestandsbuch sind { $most } da.
page-ask-each = { $weight } je Fisch
page-ask-would-fit = Mit { $what } würde es passen.
page-ask-right = Es stimmt
page-ask-correct = Berichtigen
page-ask-gone = Diese Frage ist schon beantwortet.
page-entry-confirmed = Nachgefragt und als richtig bestätigt.

page-waiting-title = Ausgang
page-waiting-count = { $n } noch nicht gesendet
page-waiting-photo = Foto, { $unit }
page-waiting-sample = Probe, { $unit }
page-waiting-kept = Alles hier bleibt auf diesem Telefon, auch wenn Sie die Seite schließen.
page-waiting-nothing = Alles ist beim Server angekommen.
page-waiting-now = Jetzt versuchen
page-waiting-arrived = Angekommen
page-waiting-retry = Noch einmal
page-waiting-give-up = Aufgeben
page-waiting-give-up-sure = Vom Telefon löschen? Der Server hat es nicht.

page-pair-title = Telefon koppeln
page-pair-how = Der Server lässt Telefone zu, die seinen Code kennen. Er steht dort, wo der Server gestartet wurde, und gilt einige Minuten.
page-pair-scanned = Das Bild hat den Code mitgebracht. Geben Sie diesem Telefon einen Namen: er steht bei allem, was damit eingetragen wird.
page-pair-code = Code
page-pair-code-hint = Acht Ziffern; ein Leerzeichen schadet nicht.
page-pair-name = Name dieses Telefons
page-pair-usual-name = Mein Telefon
page-pair-save = Koppeln
page-pair-wait = Zu viele Versuche. Warten Sie { $n } Sekunden.

page-settings-title = Optionen
page-settings-language = Sprache
page-settings-units = Maßeinheiten
page-settings-metric = g, kg, mm, °C, L
page-settings-imperial = oz, lb, in, °F, gal
page-settings-printed = Ihr gedruckter Bogen
page-settings-printed-how = Drucker verkleinern. Messen Sie die Prüfstrecke auf dem Bogen und geben Sie ihre Länge ein; dann stimmen die Längen.
page-settings-check-line = Prüfstrecke, soll { $length } sein
page-settings-printed-now = Neue Fotos werden für einen Druck mit { $percent } % vermessen.
page-settings-paper-how = Meist sagen die Marker das Papier. Wählen Sie es, wo nur zwei davon im Bild sind.
page-settings-lens = Objektiv Ihres Telefons
page-settings-lens-how = Ein Profil macht Längen sicherer: fotografieren Sie die gedruckte Tafel von mehreren Seiten, führen Sie „fishmeasure lens“ mit den Fotos aus, und fügen Sie die Datei hier hinzu.
page-lens-usual = Kein Profil: wie Telefone meist sind
page-lens-every-camera = für jede Kamera
page-lens-gone = der Server hat es nicht
page-lens-add = Profil hinzufügen
page-lens-no-profile = { $file } ist kein Objektivprofil. Erstellen Sie eines mit „fishmeasure lens“.
page-lens-replace = Der Server hat ein anderes Profil „{ $name }“. Ersetzen?
page-paper-seen = Sagen die Marker
page-paper-sheet = Bogen auf { $paper }
page-how-title = Bogen und Objektiv
page-how-paper = Gedruckter Bogen
page-how-lens = Objektivprofil
page-how-save = Damit vermessen
page-how-corrected = Das Foto wird neu vermessen; was Sie darauf berichtigt haben, ist noch einmal zu tun.
page-how-markers = { $n ->
    [one] { $n } Marker
   *[other] { $n } Marker
    }
page-how-method-sheet = Maßstab vom Bogen
page-how-method-loose-markers = Maßstab von losen Karten
page-how-method-single-marker = Maßstab von einer Karte
page-how-method-known-distance = Maßstab von Hand
page-how-focal-lens-profile = Objektivprofil { $lens }
page-how-focal-exif = Brennweite aus dem Foto
page-how-focal-markers = Brennweite aus den Markern
page-how-focal-typical = ein übliches Telefonobjektiv
page-how-lens-unused = Das Objektivprofil „{ $lens }“ ist für eine andere Kamera und wurde nicht verwendet.
page-settings-export = Ihre Zahlen
page-settings-export-how = Alles, was der Server hat, zum Aufbewahren oder Weiterbearbeiten.
page-settings-export-all = Alles (JSON)
page-settings-export-entries = Bestandsbuch (CSV)
page-settings-server = Server
page-settings-version = Version
page-settings-reach = Verbindung
page-settings-reached = erreichbar
page-settings-not-reached = nicht erreichbar
page-settings-paired = Nur gekoppelte Telefone
page-settings-no-pairing = nein
page-settings-pair-again = Neu koppeln
page-settings-insecure = Diese Seite kam über einfaches HTTP: andere im selben Netz könnten mitlesen. Ohne Netz läuft sie nur, solange der Browser sie behält, was hier wartet, kann bei knappem Platz weggeworfen werden, und ein eigenes Kamerabild kann die Seite nicht zeigen.
page-settings-me = Dieses Telefon
page-settings-kept = Aufbewahrt, bis es gesendet ist
page-settings-kept-yes = ja, auch wenn der Platz knapp wird
page-settings-kept-no = solange Platz ist

page-role-reader = darf ansehen
page-role-worker = darf eintragen, fotografieren und Proben nehmen
page-role-owner = darf alles

page-roles-title = Nicht für dieses Telefon
page-roles-only-worker = Das kann nur ein Telefon, das eintragen darf.
page-roles-only-owner = Das kann nur das Telefon des Eigentümers.
page-roles-ask = Der Eigentümer kann diesem Telefon mehr erlauben: Einstellungen, „Geräte“.

page-fit-title = Fünf Fische fotografieren und wiegen
page-fit-work = Was sagen sie?
page-fit-how-title = So geht es
page-fit-how-1 = Nehmen Sie fünf Fische der Größen, die Sie halten, einen Tag nüchtern.
page-fit-how-2 = Legen Sie jeden auf die Seite neben das Blatt, Bauch und Rücken frei, und fotografieren Sie senkrecht von oben; zwei Fotos sind besser als eines.
page-fit-how-3 = Wiegen Sie jeden sofort, abgewischt, auf 1 g oder 1 %.
page-fit-how-4 = Tippen Sie jedes Gewicht neben die Nummer des Fisches. Eine am Maßstab gelesene Gabellänge kann daneben stehen.
page-fit-cannot = Kein Umriss unterscheidet laichreife Fische, volle Därme oder aufgetriebene Bäuche von fetten Fischen.
page-fit-page = Anleitung mit Tabelle, zum Drucken
page-fit-photos = Fotos
page-fit-take = Fische fotografieren
page-fit-choose = Fotos wählen
page-fit-sampled = Oder Fotos aus Proben dieser Einheit:
page-fit-use = Dieses Foto verwenden
page-fit-picture = Das Foto mit nummerierten Fischen
page-fit-none = Kein Fisch dieses Fotos ist brauchbar.
page-fit-fish = Fisch { $n }, { $length }
page-fit-weight = Gewicht
page-fit-ruler = Gabellänge am Maßstab
page-fit-ripe = Die Fische sind laichreif oder laichen
page-fit-is-ripe = Diese Fische könnten laichreif sein oder laichen: Gewichte nach Foto sind unsicherer, und nichts Gelerntes gilt über das Laichen hinaus.
page-fit-known = Von diesem Bestand bekannt
page-fit-known-usual = Noch nichts von Ihren eigenen Fischen: dies ist, was von der Art veröffentlicht ist, wenn etwas, und wie weit Bestände auseinander liegen.
page-fit-constant = Gewicht zum Umriss (c), g/cm³
page-fit-nothing = Wählen Sie ein Foto und tippen Sie die Gewichte von mindestens drei seiner Fische.
page-fit-taught = Was die Fische sagen
page-fit-after = Gewicht zum Umriss (c) dieser Fische, g/cm³
page-fit-before = Wie zuvor bekannt
page-fit-mean-after = Mittleres Gewicht nach diesen Fotos, wie gelernt
page-fit-mean-before = Nach diesen Fotos wie zuvor
page-fit-left-out = Ein Fisch, von den anderen vorhergesagt, weicht ab um
page-fit-by-length = nach Länge allein { $share }
page-fit-keep = Für diesen Bestand behalten

page-devices-title = Geräte
page-devices-invite = Ein weiteres Telefon zulassen
page-devices-invite-how = Wählen Sie, was es darf. Halten Sie dann dieses Bild vor seine Kamera.
page-devices-invite-reader = Zum Ansehen
page-devices-invite-worker = Zum Eintragen, Fotografieren und Probennehmen
page-devices-invite-owner = Als Eigentümer, für alles
page-devices-qr-alt = Ein Bild der Adresse und des Codes { $code }
page-devices-scan = Richten Sie innerhalb von { $n } Minuten die Kamera des anderen Telefons darauf; es koppelt ein Telefon. Oder geben Sie dort diesen Code ein:
page-devices-none = Kein Gerät ist gekoppelt.
page-devices-this = { $name } (dieses Telefon)
page-devices-role = Was es darf
page-devices-seen = Zuletzt gesehen
page-devices-never = nicht bekannt
page-devices-today = heute
page-devices-paired = Gekoppelt
page-devices-ends = Kopplung endet, wenn es nicht benutzt wird
page-devices-ended = ist zu Ende
page-devices-change = Umbenennen, ändern oder trennen
page-devices-name = Name
page-devices-save = Speichern
page-devices-unpair = Trennen
page-devices-unpair-sure = { $name } trennen? Es wird nicht mehr zugelassen. Was es eingetragen hat, bleibt.
page-devices-demote-sure = Dann kann dieses Telefon es nicht zurücknehmen. Ein anderes Telefon des Eigentümers kann es, oder der Code dort, wo der Server gestartet wurde.

page-guide-title = Hilfe
page-guide-cautions = Vorsicht
page-guide-print = 1. Bogen drucken
page-guide-print-alt = Ein Bogen mit einem Marker in jeder Ecke; ein Lineal liegt an seiner Prüfstrecke von 100 mm.
page-guide-print-1 = Mit 100 % drucken, nicht „an Seite anpassen“, auf mattes Papier.
page-guide-print-2 = Prüfstrecke messen und ihre Länge unter Optionen eingeben.
page-guide-print-3 = Unbedeckt lassen: Glanz und Plastikhüllen blenden. Neu drucken, wenn er abgenutzt ist.
page-guide-print-4 = Ein Brett oder eine Schale mit den vier losen Karten in den Ecken geht auch.
page-guide-sheet-sheet = Bogen, { $paper }
page-guide-sheet-cards = Vier lose Karten, { $paper }
page-guide-sheet-single = Eine Karte, { $paper }
page-guide-sheet-tub = Bogen für eine Wanne mit Wasser, { $paper }
page-guide-sheet-tub-cards = Vier Karten für eine Wanne, { $paper }
page-guide-sheet-dummy = Prüffisch von 200 mm, { $paper }
page-guide-sheet-lens-board = Tafel für das Objektiv, { $paper }
page-guide-lay = 2. Fische hinlegen
page-guide-lay-alt = Sechs Fische liegen mit Abstand um den Bogen auf einem nassen Brett.
page-guide-lay-1 = Zuerst Brett und Hände nass machen.
page-guide-lay-2 = Fische auf die Seite legen, gerade, mit Abstand, auf den Bogen oder daneben auf dieselbe Fläche.
page-guide-lay-3 = Marker frei lassen und so trocken, dass sie nicht glänzen.
page-guide-lay-4 = Am besten ist ein einfarbiges Brett, heller oder dunkler als die Fische.
page-guide-lay-5 = In Sekunden fotografieren und die Fische zurücksetzen.
page-guide-above = 3. Senkrecht von oben
page-guide-above-alt = Ein Telefon, waagerecht 60 bis 90 Zentimeter über dem Bogen; alle Fische sind im Bild.
page-guide-above-1 = Telefon waagerecht halten, 60 bis 90 cm über den Fischen.
page-guide-above-2 = Alle Fische und Marker im Bild, nichts abgeschnitten.
page-guide-above-3 = Schatten ist besser als Sonne; kein Blitz.
page-guide-above-4 = Zum Scharfstellen auf einen Fisch tippen, still halten.
page-guide-weigh = 4. Kescher wiegen
page-guide-weigh-alt = Ein Kescher mit Fischen an einer Hängewaage, und derselbe Kescher leer und nass.
page-guide-weigh-1 = Kescher heben und jedes Mal gleich lang abtropfen lassen, etwa zehn Sekunden.
page-guide-weigh-2 = Waage ablesen: Kescher mit Fischen.
page-guide-weigh-3 = Fische beim Zurücksetzen zählen, im Zweifel zweimal.
page-guide-weigh-4 = Den nassen Kescher allein nach gleich langem Abtropfen wiegen.
page-guide-weigh-5 = Drei Kescher oder mehr: sie zeigen, wie gut sie übereinstimmen.
page-guide-spots = 5. Eine faire Probe
page-guide-spots-alt = Ein rundes Becken von oben; die Fische sind hinter einem Netz gedrängt und werden an drei Stellen gekeschert.
page-guide-spots-1 = Der erste Kescher ist keine faire Probe: mutige und hungrige Fische kommen zuerst. Drängen Sie die Fische behutsam zusammen.
page-guide-spots-2 = An mehreren Stellen und in mehreren Tiefen keschern.
page-guide-spots-3 = Jeden Fisch eines Keschers nehmen; nicht auswählen.
page-guide-spots-4 = Vorher nicht füttern; Proben in der Kühle des Morgens.
page-guide-spots-5 = Aufhören, wenn Fische nach Luft schnappen oder auf der Seite liegen.

page-species-rainbow-trout = Regenbogen{ "\u00AD" }forelle
page-species-arctic-char = Seesaibling
page-species-atlantic-salmon = Atlantischer Lachs
page-species-barramundi = Barramundi
page-species-bluegill = Blauer Sonnenbarsch
page-species-brook-trout = Bachsaibling
page-species-brown-trout = Bachforelle
page-species-channel-catfish = Getüpfelter Gabelwels
page-species-common-carp = Karpfen
page-species-grayling = Äsche
page-species-lake-trout = Amerikanischer Seesaibling
page-species-nile-tilapia = Niltilapia
page-species-perch = Flussbarsch
page-species-pikeperch = Zander
page-species-sea-bass = Wolfsbarsch
page-species-silver-perch = Silberbarsch
page-species-tench = Schleie
