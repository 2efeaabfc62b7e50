### What fishmeasure says, in English. A language is one file like this one.
###
### The id is the code; its value says what is wrong, with the figures; .advice what the
### grower does now; .cli and .page the same in the terms of the command line and the
### page, where they differ; .meaning is the line of `fishmeasure explain`. A line break
### is said as a space. functions.py tells of NUMBER, AMOUNT, PERCENT, DAY, LIST, QUOTED
### and STOP, WEIGHT; a parameter $case tells which of a code's sentences is meant.

## Forms: how figures, days and lists are written

day-format = yyyy-MM-dd
list-or = { $first } or { $last }
list-and = { $first } and { $last }
span = { $value } ({ $low } to { $high })
span-low = { $low } (likely { $value })
span-high = { $high } (likely { $value })
percent = { $value } %
percent-past-all = over 999 %
fingerlings-sold = { $case ->
    [us] { $count } fish a lb, { $thousand } lb a thousand
   *[metric] { $count } fish a kg, { $thousand } kg a thousand
}
share-up-to = up to { $high }
share-likely = { $high } (likely { $value })

## Units

unit-kg-per-day = kg a day
unit-lb-per-day = lb a day
unit-m3-per-day = m³ a day
unit-gal-per-day = gal a day
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
    [ENOENT] no such file or directory
    [EACCES] permission denied
    [EPERM] operation not permitted
    [EEXIST] file exists
    [EISDIR] is a directory
    [ENOTDIR] not a directory
    [EINVAL] invalid argument
    [EFBIG] file too large
    [ENOSPC] no space left on device
    [EDQUOT] disk quota exceeded
    [EROFS] read-only file system
    [ENAMETOOLONG] file name too long
    [EMFILE] too many open files
    [EIO] input/output error
   *[other] { $told }
}

wanted = { $case ->
    [number] a number
    [whole-number] a whole number
    [true-or-false] true or false
    [text] text
    [no-nul] text without NUL characters
    [unicode] valid Unicode text
    [uuid] a UUID
    [day] a date
    [date] a date (2026-05-02)
    [time-of-day] a time of day
    [time] a time (06:30)
    [zoneless] a time of day without a zone
    [moment] a date and time with its zone
    [list] a list
    [object] an object
    [array] lists of numbers of the shape { $shape }
    [choice] one of { $choices }
    [yes-no] yes or no
    [known-text] like 120,80,940,85=300
    [whole] a whole number from { $least } to { $most }
   *[home] a folder of somebody who is known here
}

field-wanted = must be { $wanted }, not { $given }

field-limit = { $word ->
    [ge] must be { $limit } or more, not { $given }
    [gt] must be more than { $limit }, not { $given }
    [le] must be { $limit } or less, not { $given }
   *[lt] must be less than { $limit }, not { $given }
}

field-limit-day = { $word ->
    [ge] must be { DAY($limit_on) } or later, not { $given }
    [gt] must be later than { DAY($limit_on) }, not { $given }
    [le] must be { DAY($limit_on) } or earlier, not { $given }
   *[lt] must be earlier than { DAY($limit_on) }, not { $given }
}

field-length = { $word ->
    [max_length] must be at most { $limit } long, not { $length }
   *[min_length] must be at least { $limit } long, not { $length }
}

field-needed = , needed

field-range = { " " }from { $low } to { $high }

field-kind = { $case ->
    [object] object with { LIST($names) }
    [choice] { LIST($names, between: " or ") }
    [list] list of ({ $each })
    [uuid] id
    [date] date
    [time] time
    [date-time] date and time
    [boolean] true or false
    [number] number
    [integer] whole number
   *[string] text
}

field-missing = { $fields ->
    [one] is missing
   *[other] are missing
}

field-unknown = is not known here{ $case ->
    [near] ; is { $near } meant?
   *[far] {""}
}

field-other = { $told }

field-beside = is given beside { $other }

figure-outside = { $value } is outside { $low } to { $high }

figure-outside-named = { $name } { $value } is outside { $low } to { $high }

figures-must-rise = these must rise: { LIST($names) }

the-day = the day

day-outside = must be from { DAY($first_on) } to { DAY($last_on) }, not { DAY($given_on) }

aerator-needs = of { $name } must be above 0 to say { $case ->
    [gas] what its gas brings
    [battery] how long its battery lasts
   *[cylinder] how long its cylinder lasts
}

species-slip = { $case ->
    [lengths] max_length_mm must be over min_length_mm
    [standard] standard length cannot be over fork length
   *[dome] the optimum of a dome must be under its highest temperature
}

entry-slip = { $case ->
    [nothing-learned] is missing: nothing was learned, neither weights nor heights
    [which-taken-back] is missing: which entry is taken back?
    [count-or-bulk] is missing: give it, or bulk_weight_kg and mean_weight_g
    [count-and-weight] is missing, and weight_kg too
    [one-group] of one unit must be given as one group
    [itself] is the entry itself
    [same-unit] is the unit the fish are in already
    [outside-weights] lies outside mean_weight_low_g to mean_weight_high_g
    [outside-conditions] must lie from condition_factor_low to condition_factor_high
    [unit-empty] of the unit is empty
    [cohort-empty] of the cohort is empty
    [months] must have 12 values, one for all the year, or none
    [withdrawal] is missing: give it, or withdrawal_degree_days, as the label or the
        veterinarian says
   *[no-figure] is missing: no figure is given
}

entry-kind = must be one of { LIST($kinds) }

net-slip = { $case ->
    [only-counted] are counted, but there is no weight, no photo and no length
    [photo-twice] name a photo twice
    [lengths-and-photos] stand beside photos: give one of them
    [net-and-gross] stands beside gross_g: give one of them
   *[tare-alone] stands there without a gross weight
}

sample-slip = { $case ->
    [not-toml] it is not valid TOML: { $told }
    [nested] its lists are nested too deeply
    [digits] a number in it has thousands of digits
    [nets] is not known here; is net meant?
    [units] is given in { LIST($names, last: "and") }
   *[no-net] is missing: one [[net]] for a dip
}

net-label = net { $number }

net-labelled = net { $number } ({ $label })

net-lengths = are { $lengths }, but the fish are { $fish_count }

net-tare = is { AMOUNT($tare_g) }, but the gross weight is { AMOUNT($gross_g) }

fish-too-heavy = is { AMOUNT($weight_g, decimals: 0) } a fish, more than
    { AMOUNT($limit_g, decimals: 0) }; look at the unit

fish-too-light = is { AMOUNT($weight_g) } a fish, less than
    { AMOUNT($limit_g, decimals: 4) }; look at the unit

too-many-digits = a number of thousands of digits

record-word = { $what ->
    [unit] unit
    [cohort] cohort
    [entry] entry
    [photo] photo
    [sample] sample
    [device] device
    [lens] lens
    [species] species
    [page] page
    [file] file
   *[other] { $what }
}

record-word-first = { $what ->
    [unit] Unit
    [cohort] Cohort
    [photo] Photo
    [sample] Sample
   *[other] { $what }
}

## base: errors of records

failed =
    .meaning = No figure can be given, for the reason told.

bad-field = { $field } { STOP($reason) }
    .advice = Correct it.
    .meaning = A record has an unusable, unknown or missing field.

## base: errors of the book and its files

bad-entry = The book cannot take this: { $field } { STOP($reason) }
    .advice = Correct it and send it again.
    .meaning = A unit, cohort or entry has an unusable or missing field.

unknown-record = The book has no { record-word } { $name }.
    .advice = { $case ->
        [listed] The book has: { LIST($known) }.
       *[bare] {""}
    }
    .cli = { unknown-record.advice }{ $example ->
        [unit] { " " }To add it: fishmeasure book add unit { SHELL($name, key: "name") }
            kind=… volume_m3=… depth_m=…
        [cohort] { " " }To add it: fishmeasure book add cohort { SHELL($name, key: "name") }
            species_key=…
       *[other] {""}
    }
    .meaning = A unit, cohort or entry is not in the book.

future-day = { DAY($on) } is in the future; today is { DAY($today) }.
    .advice = Not entered. Correct the date.
    .meaning = What has not been yet cannot be entered.

no-book = There is no book at { $where }.
    .advice = Check the path; the first unit that is added makes a new book.
    .cli = { no-book.advice } See --book and FISHMEASURE_BOOK; 'fishmeasure book add unit'
        adds one.
    .meaning = There is no file where a book is to be read.

entry-conflict = The book has another { record-word } with the id { $identity } (differs in
    { LIST($differing) }).
    .advice = Nothing was changed. A correction is a new entry that replaces the old.
    .meaning = The same id was sent before with other content.

both-said = { $first } { $then }

doubtful-entry = Not stored yet: { $doubts }{ $case ->
        [slip] {" "}{ $slip }
       *[plain] {""}
    }
    .advice = Correct it, or say that it is right as it is.
    .cli = Correct it, or add --confirm if it is right as it is.
    .meaning = An entry is far from what the book expects, and waits for an answer.

already-replaced = The entry { $identity } was replaced by { $by } already.
    .advice = Look at it; if it is still wrong, replace { $by }.
    .meaning = Somebody else corrected or took back the entry first.

version-conflict = { record-word-first } { $name } was sent as version { $sent_version }, but the book
    has version { $newest_version }.
    .advice = Read version { $newest_version }, make the change there, and send it as
        version { $next_version }.
    .meaning = Somebody else changed the unit or cohort first.

name-taken = The book has a { record-word } called { $name }.
    .advice = Choose another.
    .meaning = Two units or two cohorts cannot have one name.

book-newer = This book was written by a newer fishmeasure (schema { $revision }).
    .advice = Update fishmeasure to read it; the book was left as it is.
    .meaning = The book was written by a newer version of the program.

book-unreadable = { $case ->
        [server] The server cannot open its book.
       *[here] { $where } cannot be opened as a book: { $reason }.
    }
    .advice = Check the path or address, the free space, and that it may be read and
        written.
    .meaning = The file or address is no book, or cannot be reached.

book-damaged = { $case ->
        [server] The server's book is damaged.
       *[here] The book { $where } is damaged: { $reason }.
    }
    .advice = Keep the file. Put a backup back beside it; an export may save what is left
        of it.
    .cli = { book-damaged.advice } See 'fishmeasure restore' and 'fishmeasure book export'.
    .meaning = The file was a book, and a part of it was lost.

book-busy = Another program kept the book locked for { $waited_s } seconds.
    .advice = Nothing was written. Try again.
    .meaning = Another program held the book for too long.

book-in-use = { $case ->
        [server] A running server or another command has the book { $where } open.
       *[restore] A backup is being put back over the book { $where }.
    }
    .advice = { $case ->
        [server] Nothing was changed. End it, then put the backup back: what is entered
            meanwhile would be lost.
       *[restore] Start the server when that is done.
    }
    .cli = { book-in-use.advice } { $case ->
        [server] Stop 'fishmeasure serve'.
       *[restore] Wait for 'fishmeasure restore'.
    }
    .meaning = A backup cannot be put back under a running server, nor one start meanwhile.

book-write = { $case ->
        [server] The server could not write to its book.
       *[here] The book could not be written: { $reason }.
    }
    .advice = Nothing of this entry was saved. Free space or repair the disk, then send it
        again.
    .meaning = The disk or the server refused the write.

book-full = The book could not be written: the disk is full.
    .advice = { book-write.advice }
    .meaning = There is no room for what was to be written.

import-file = { $where } cannot be imported: { STOP($reason) }
    .advice = Nothing was imported.
    .meaning = A file to be imported is not what the book exports.

backup = { $case ->
        [server] A book on PostgreSQL is not backed up from here.
        [existing] { $where } is there already.
       *[disk] { $where } cannot be read or written: { $reason }.
    }
    .advice = { $case ->
        [server] Use pg_dump for the book, and copy the folder with the photos after it.
        [existing] Nothing was changed. Choose another place.
       *[disk] Check the path and the free space; no book was changed.
    }
    .cli = { $case ->
        [existing] Nothing was changed. Choose another place, or put a backup back over a
            book with --force, which keeps the old book beside it.
       *[other] { backup.advice }
    }
    .meaning = A backup cannot be made or put back.

backup-damaged = { $name } is no whole backup: { $reason }.
    .advice = Nothing was changed. Take another copy or an older backup.
    .meaning = A backup is not as it was made.

no-backup = { $name } is no backup of a book.
    .advice = Nothing was changed. Give a file that was made as a backup.
    .cli = { no-backup.advice } 'fishmeasure backup' makes one.
    .meaning = A file is no backup at all.

## base: errors of the command line

option-format = { $case ->
        [empty] { $option }: nothing was given.
       *[unread] { $option }: { QUOTED($given) } cannot be read.
    }
    .advice = Write it like this: { $example }.
    .meaning = An option's text cannot be read.

bad-option = { $option } { $value } is not { $wanted }.
    .advice = Correct it and run the command again.
    .meaning = An option or a file name on the command line cannot be used.

no-file = There is no file { $name }.
    .advice = Check its name and folder.
    .meaning = A file that was named is not there.

no-number = { QUOTED($given) } is no number.
    .advice = Write figures, such as 1912 or 12.5, with a unit where it is another: 4 lb 3 oz.
    .meaning = What was typed is no number, or has an unknown unit.

unclear-number = { QUOTED($given) } can be read in two ways.
    .advice = Write { $whole } or { $decimal }.
    .meaning = What was typed can be read as two numbers.

unknown-kind = The book has no kind '{ $word }'.
    .advice = { $case ->
        [near] Is { $near } meant?
       *[far] There are: { LIST($known) }.
    }
    .meaning = The book has no such kind of entry.

unknown-code = There is no code '{ $word }'.
    .advice = { $case ->
        [near] Is { LIST($near, last: "or") } meant?
       *[far] {""}
    }
    .cli = { $case ->
        [near] Is { LIST($near, last: "or") } meant? 'fishmeasure explain' lists all.
       *[far] 'fishmeasure explain' lists them.
    }
    .meaning = No problem and no error has this code.

command-line = { STOP($reason) }{ $case ->
        [near] { " " }Did you mean { LIST($near, last: "or") }?
       *[far] {""}
    }
    .advice = '{ $command } --help' shows the options.
    .meaning = A command was given something that it does not take, or not what it needs.

data-file = { $given } is no file for results.
    .advice = Write --json results.json, or --json - for the screen; --csv likewise.
    .meaning = What should name a file for results is another option, a photo or a sample.

unknown-command = There is no command '{ $group } { $word }'.{ $case ->
        [near] { " " }Did you mean { LIST($near, last: "or") }?
       *[far] {""}
    }
    .advice = '{ $group } --help' lists them.
    .meaning = There is no such command.

report-write = { $where } cannot be written: { $reason }.
    .advice = Make room there, or choose a place that you may write to.
    .meaning = What a command gives cannot be written where it was wanted.

result-file = { $where } cannot be used for results: { $reason }.
    .advice = Make room or choose another file, then run the command again: it goes on
        where it was.
    .meaning = The results of many photos cannot be kept in the file, or read from it.

cluster-lost = The dask scheduler at { $address } is gone.
    .advice = Start it, then run the command again: it goes on where it was.
    .meaning = The scheduler of a cluster went away while photos were measured.

## base: errors of photos

bad-correction = Correction { $number } cannot be made: { $reason }.
    .advice = Load the photo again and repeat it.
    .meaning = A person's correction of a photo cannot be made.

not-an-image = { $case ->
        [reason] { $name } is not a picture that can be read ({ $reason }).
        [file] { $name } was not measured: { $reason }.
        [folder] { $name } was not measured: { $reason }.
       *[plain] { $name } is not a picture that can be read.
    }
    .advice = { $case ->
        [file] Check the name of the file.
        [folder] Name its photos.
       *[other] Send the photo as the phone saved it: JPEG, PNG, WebP or HEIC.
    }
    .cli = { $case ->
        [folder] Name its photos, or use 'fishmeasure batch' for a whole folder.
       *[other] { not-an-image.advice }
    }
    .meaning = The file is not there or cannot be read.

too-large = { $case ->
        [upload] The upload is over { NUMBER($limit_mb, decimals: 0) } MB.
        [request] The request is over { NUMBER($limit_mb, decimals: 0) } MB.
        [values] The request holds more than { $limit } values.
        [memory] The photo needs more than the { NUMBER($limit_mb, decimals: 0) } MB of
            memory that the server gives to one.
       *[photo] { $name } is too large: { $size }, the limit is { $limit }.
    }
    .advice = { $case ->
        [upload] Send fewer photos at once, each as the phone saved it.
        [request] Send it in several parts.
        [values] Send it in several parts.
        [memory] Take it with the phone's normal setting, and send it as a JPEG.
       *[photo] Take it with the phone's normal setting, not as a panorama or scan.
    }
    .meaning = A photo is over the limit in bytes or pixels, or a request too large.

too-small = { $name } is only { $width_px } x { $height_px } pixels.
    .advice = Send the original photo, not a preview or a cut-out.
    .meaning = The photo has too few pixels for any figure.

not-drawn = No picture of { $name } was drawn: with { $width_px } x { $height_px } pixels
    it is too long and narrow for labels that can be read.
    .advice = Send the photo as the phone took it, not a strip of it.
    .meaning = The photo is too long and narrow for a picture with its fish drawn in.

## base: errors of markers and lenses

lens-file = { $case ->
        [field] { $name } cannot be used as a lens profile: { $field } { STOP($reason) }
       *[whole] { $name } cannot be used as a lens profile: { STOP($reason) }
    }
    .advice = Make one from photos of the printed lens board.
    .cli = { lens-file.advice } 'fishmeasure lens' makes one.
    .meaning = The file is no lens profile.

lens-photos = { $case ->
        [mixed] These photos are not from one camera at one size, so they give no lens
            profile.
        [few] The lens board is seen well in { $found } of { $given } photos; { $needed }
            are needed.
        [misfit] The photos of the board do not fit one lens (off by
            { NUMBER($rms_px, decimals: 1) } pixels).
       *[alike] The photos of the board are too alike to tell the focal length.
    }
    .advice = { $case ->
        [mixed] Give photos taken with the same phone, lens and setting.
        [few] Take more photos of the printed lens board, flat and sharp.
        [misfit] Glue the board to something flat, hold the phone still, do not zoom.
       *[alike] Tilt the phone by 20 to 40 degrees to each side for some of them.
    }
    .meaning = The photos of the lens board give no lens profile.

no-marker = No calibration marker can be seen in { $name }, so nothing gives its scale.
    .advice = Lay the printed sheet or marker flat beside the fish, wholly in view and dry,
        and take the photo again.
    .meaning = No printed marker was found, or none that is one of the project's.

several-sheets = { $name } shows marker { LIST($marker_ids) } more than once.
    .advice = Leave one sheet, or one of each card, in view.
    .meaning = The same marker is in the photo twice.

markers-disagree = The markers in { $name } do not fit one flat plane (off by
    { AMOUNT($rms_mm, decimals: 1) }).
    .advice = Use markers of one print at one scale, and lay all of them flat on the surface
        that the fish lie on.
    .meaning = The markers do not lie in one plane at their printed sizes.

tilted = { $case ->
        [doubtful] Taken at { NUMBER($tilt_deg, decimals: 0) } degrees from straight down;
            lengths are less certain.
       *[refused] { $name } was taken at { NUMBER($tilt_deg, decimals: 0) } degrees from
            straight down; over { NUMBER($limit_deg, decimals: 0) } no length can be trusted.
    }
    .advice = { $case ->
        [doubtful] Hold the phone flat above the fish.
       *[refused] Hold the phone flat, straight above the fish.
    }
    .meaning = Taken at a slant: measured with a wider error, or refused beyond a limit.

blurred = { $case ->
        [doubtful] Blurred: an edge is smeared over about
            { AMOUNT($edge_mm, decimals: 0) }.
        [whole] The photo is blurred.
       *[refused] { $name } is blurred: an edge is smeared over about
            { AMOUNT($edge_mm, decimals: 0) }.
    }
    .advice = { $case ->
        [doubtful] Hold the phone still, tap on the fish to focus, wipe the lens.
       *[refused] Hold the phone still, tap on the fish to focus, use more light, wipe the
            lens.
    }
    .meaning = Blurred: measured with a wider error, or refused beyond a limit.

too-far = { $case ->
        [doubtful] The markers are small in the photo, so the scale is less certain.
       *[refused] The marker in { $name } is only { NUMBER($side_px, decimals: 0) } pixels
            wide; { NUMBER($limit_px, decimals: 0) } are needed.
    }
    .advice = { $case ->
       *[refused] Go nearer, or send the photo at its full size.
    }
    .meaning = The marker is small in the photo: measured with a wider error, or refused.

known-distance = The two points in { $name } cannot give a scale: they are
    { NUMBER($distance_px, decimals: 0) } pixels apart; { NUMBER($limit_px, decimals: 0) }
    are needed, both in the photo, and a length above 0 mm.
    .advice = Give two points in the photo, far apart, and the millimetres between them.
    .meaning = The two points of a known distance cannot be used.

print-scale = The print scale { $reason }.
    .advice = Measure the sheet's check line and give its mm over 100: 0.97 for 97 mm.
    .meaning = No sheet is printed at such a scale.

## base: errors of samples

sample-file = { $case ->
        [place] The sample cannot be used: { $place } { STOP($reason) }
       *[whole] The sample cannot be used: { STOP($reason) }
    }
    .advice = Correct that; the README shows a whole file.
    .meaning = The sample cannot be read, or breaks its layout.

empty-sample = No net has a weight or a fish whose length can be used.
    .advice = Weigh at least one counted net, or photograph its fish.
    .meaning = No net has a weight or a measured fish.

length-weight-data = No length-weight line can be fitted: { $reason }.
    .advice = Weigh and measure 20 to 30 fish one by one, small and large ones.
    .meaning = Single lengths and weights cannot be fitted.

heights = { $case ->
        [few] { $fish ->
            [one] 1 fish has a length read on a ruler
           *[other] { $fish } fish have a length read on a ruler
        }: { $needed } are needed to tell how high snouts and forks lie.
        [off] Fish { $fish }, in { $photo }, has { AMOUNT($ruler_mm, decimals: 0) } on the ruler
            and { AMOUNT($length_mm, decimals: 0) } by the photo: more than heights of snout
            and fork can explain.
       *[untold] These { $fish } fish do not tell how high snouts and forks lie. They are
            { AMOUNT($thickness_mm, decimals: 0) } thick and seen from
            { AMOUNT($camera_mm, decimals: 0) }: their length would change by
            { PERCENT($share, decimals: 1) }, less than print, lens and ends are sure of.
    }
    .advice = { $case ->
        [few] Photograph some more fish and read the fork length of each.
        [off] Look at the fish's number, at the length read, and whether the marker was printed
            at its size.
       *[untold] Take the photos from nearer, of thicker fish, and measure the print's scale.
    }
    .meaning = Lengths on a ruler do not tell how high snouts and forks lie.

plan = { $case ->
        [range] The mean cannot be planned to within { $half_width_percent } % with
            { $fish_per_net } fish a net.
       *[reach] ± { $half_width_percent } % cannot be had: { $nets } nets would still leave
            ± { NUMBER($reached_percent, decimals: 1) } %.
    }
    .advice = { $case ->
        [range] Give a width above 0 and below 100 %, and at least one fish a net.
       *[reach] Ask for a wider interval, or take the drip water and the scale's error down
            first.
    }
    .meaning = No sampling plan gives what was asked.

sample-not-entered = The sample is not entered in the book: its weights and lengths cannot
    be of the same fish.
    .advice = Correct it first.
    .meaning = A sample whose weights and lengths are not of the same fish is not entered.

other-species = { $case ->
        [deeper] These fish are deeper than { $species }: { NUMBER($depth, decimals: 2) } of
            their length, where { NUMBER($usual_depth, decimals: 2) } is usual{ ASKED($others) }
        [slimmer] These fish are slimmer than { $species }: { NUMBER($depth, decimals: 2) } of
            their length, where { NUMBER($usual_depth, decimals: 2) } is usual{ ASKED($others) }
       *[cohort] The sample is of { $species }, the cohort { $cohort } of { $of_cohort }.
            Not entered.
    }
    .advice = { $case ->
        [deeper] If they are another species, name it and measure again, as the weights would be
            those of another fish; if not, look at the outlines.
        [slimmer] If they are another species, name it and measure again, as the weights would
            be those of another fish; if not, look at the outlines.
       *[cohort] If the fish are { $of_cohort }, write species = "{ $of_cohort }" in the
            sample and have it measured again; else name another cohort.
    }
    .meaning = Fish are deeper or slimmer than the species that was named, or a sample is
        of another species than its cohort.

sample-elsewhere = The book has this sample already, of { DAY($day) } in { $unit }. Nothing
    was changed.
    .advice = If that is wrong, correct the entry.
    .cli = If that is wrong: fishmeasure book correct { $identity } { $change }
    .meaning = The book has the sample, on another day or in another unit.

sample-json = { $name } does not hold the JSON of a sample.
    .advice = Give the results of a sample as JSON.
    .cli = Make it with: fishmeasure sample SAMPLE.toml --json FILE.
    .meaning = A file that should hold a sample's JSON does not.

## base: errors of species

unknown-species = There is no species "{ $name }".
    .advice = { $case ->
        [near] Is { LIST($close, last: "or") } meant?
       *[far] Known are: { LIST($known) }. For another fish give your own file, such as
            mystock.toml.
    }
    .meaning = No species has this name.

species-file = { $case ->
        [key] Species file { $file_name }, { $key }: { STOP($reason) }
       *[whole] Species file { $file_name }: { STOP($reason) }
    }
    .advice = Correct the file; the README shows its layout.
    .meaning = A species file cannot be read or breaks the layout.

## base: errors of stocking calculations

no-stock-figures = There are no growth, feed and oxygen figures for
    { QUOTED($species_key) }.
    .advice = Use one of: { LIST($known) }.
    .meaning = There are no stocking figures for the species.

outside-range = { $case ->
        [overflow] These figures are too large, or too close to 0, to be worked with.
       *[other] The { $name } cannot be { $value }{ $unit }.
    }
    .advice = { $case ->
        [overflow] Give figures of real fish and water in the units of the fields' names.
        [least] Give a value of at least { $low }{ $unit }.
       *[range] Give a value from { $low } to { $high }{ $unit }.
    }
    .meaning = A figure given is outside what the calculation can take.

no-samples = There is no weight sample to start from.
    .advice = Enter the weight at stocking or take a net sample.
    .meaning = There is no weight to start from.

weekly-harvest = A weekly harvest takes so many fish, so many kilograms or all at a size.
    .advice = Give one of the three.
    .meaning = A weekly harvest is not one of fish, kilograms or a size.

gain-not-known = The gain of { AMOUNT($gain_kg, decimals: 1) } (standard error
    { AMOUNT($sd_kg, decimals: 1) }) is not significantly different from zero, so no feed
    conversion can be given.
    .advice = Wait for more growth, or weigh more nets at both ends of the period.
    .meaning = The gain is not significantly different from zero: no feed conversion.

## husbandry: names of figures, limits, things and fish

# Another language tells $key apart: mean-weight, water-temperature and so on, the names
# that the code gives with its ranges.
quantity = { $name }

limit-name = { $case ->
        [density-index] Density index
        [flow-index] Flow index
        [density] Density
        [oxygen] Oxygen
       *[ammonia] Ammonia
    }

fish = { $case ->
        [own] this unit's fish
        [food] food fish
       *[any] fish
    }

nothing = {""}

as-said = { $text }

## husbandry: the water now

now = { $case ->
        [act] Act now. { $reason }
        [watch] Watch the water. { $reason }
        [unknown] The water is not known. { $reason }
       *[good] The water is good for { LIST($fish, last: "and") }, by what was read.
    }

do-now = { STEPS($steps) }

step = { $case ->
        [more-air] give more air or oxygen
        [less-gas] let gas out: let the inflow fall over a step or through a column, stop
            oxygen feed, and look for air that a pump draws in
        [cooler] bring in cooler water and shade the unit
        [warmer] bring in warmer water, slowly
        [no-feed] give no feed
        [no-handling] do not net, sample, grade or move fish
        [exchange] exchange water for good water
        [buffer] raise the alkalinity little by little, with sodium bicarbonate or crushed
            limestone, and follow the pH: ammonia harms more as it rises
        [measure] measure again soon and enter it
       *[professional] if it gets no better, call a fish health professional
    }

read-when = { $case ->
        [days] read { $days } days ago
        [yesterday] read yesterday
        [yesterday-at] read yesterday at { $at }
        [today-at] read today at { $at }
       *[today] read today
    }

own-limit = Limit set for this unit.

reading-keeps = { $case ->
        [its-day] A reading makes water good on its day: common practice, no source.
        [next-day] A reading makes water good on its day and the next: common practice, no
            source.
       *[days] A reading makes water good for { $days } days after it: common practice, no
            source.
    }

oxygen-low = { $case ->
        [act] Oxygen is { AMOUNT($read_mg_per_l) } ({ $when }), below the
            { AMOUNT($limit_mg_per_l) } under which { $whose } may die.
       *[watch] Oxygen is { AMOUNT($read_mg_per_l) } ({ $when }), below the
            { AMOUNT($limit_mg_per_l) } that { $whose } should have.
    }
    .advice = { $do_now }
    .meaning = The water now: too little oxygen; watch or act.

oxygen-supersaturated = Oxygen is { AMOUNT($read_mg_per_l) } ({ $when }),
    { AMOUNT($saturation_percent, decimals: 0) } of saturation, above
    { AMOUNT($limit_percent) }: gas bubbles may form in the fish.
    .advice = { $do_now }
    .meaning = The water now: too much gas; watch or act.

oxygen-unknown = { $case ->
        [never] Oxygen was never read. Measure it now and enter it.
       *[old] Oxygen was last { $when } ({ AMOUNT($do_mg_per_l) }), too long ago to call the
            water good. Measure it now and enter it.
    }
    .meaning = Oxygen was not read of late.

temperature-high = { $case ->
        [act] The water is at { AMOUNT($water_deg_c) } ({ $when }), too warm for { $whose },
            of which some die from { AMOUNT($limit_deg_c) } up.
       *[watch] The water is at { AMOUNT($water_deg_c) } ({ $when }), above the
            { AMOUNT($limit_deg_c) } up to which { $whose } feed well and bear handling.
    }
    .advice = { $do_now }
    .meaning = The water now: too warm; watch or act.

temperature-low = { $case ->
        [act] The water is at { AMOUNT($water_deg_c) } ({ $when }), too cold for { $whose },
            of which some die from { AMOUNT($limit_deg_c) } down.
       *[watch] The water is at { AMOUNT($water_deg_c) } ({ $when }), below the
            { AMOUNT($limit_deg_c) } down to which { $whose } feed well and bear handling.
    }
    .advice = { $do_now }
    .meaning = The water now: too cold; watch or act.

temperature-unknown = { $case ->
        [assumed] Nothing is known of the water temperature in { $unit };
            { AMOUNT($temperature_deg_c) } is assumed. Enter readings, or the unit's
            temperature for each month.
        [never] The water's temperature was never read. Measure it now and enter it.
       *[old] The water's temperature was last { $when } ({ AMOUNT($temperature_deg_c) }),
            too long ago to call the water good. Measure it now and enter it.
    }
    .meaning = No water temperature is known for the unit.

ammonia-read = Total ammonia is { AMOUNT($tan_mg_per_l) } as N at pH { $ph } and
    { AMOUNT($water_deg_c, digits: 3) } ({ $when })

ammonia-high = { $case ->
        [unionised] { $base }, which makes { AMOUNT($unionised_mg_per_l, digits: 2) }
            un-ionised, over the { AMOUNT($limit_mg_per_l) } that { $whose } bear.
        [acute] { $base }, over the acute criterion of
            { AMOUNT($limit_mg_per_l, digits: 2) }.
       *[chronic] { $base }, over the chronic criterion of
            { AMOUNT($limit_mg_per_l, digits: 2) }, which protects mussels too and so is
            strict for fish.
    }
    .advice = { $do_now }
    .meaning = The water now: too much ammonia; watch or act.

ammonia-unknown = Ammonia is not known, and in water that comes back to the fish it can rise
    unseen. Measure total ammonia (TAN) and pH.
    .meaning = Ammonia is not known, where it must be.

nitrite-high = { $case ->
        [read] Nitrite is { AMOUNT($read_mg_per_l) } as N ({ $when }), over the
            { AMOUNT($limit_mg_per_l, digits: 2) } for { $whose }, in water with
            { AMOUNT($chloride_mg_per_l) } chloride ({ $chloride_when }).
       *[guessed] Nitrite is { AMOUNT($read_mg_per_l) } as N ({ $when }), over the
            { AMOUNT($limit_mg_per_l, digits: 2) } for { $whose }, in water with 10 mg/L
            chloride; yours was not read, and less chloride makes nitrite more harmful.
    }
    .advice = { $do_now }
    .meaning = The water now: too much nitrite; watch or act.

nitrate-high = Nitrate is { AMOUNT($read_mg_per_l) } as N ({ $when }), over the
    { AMOUNT($limit_mg_per_l, digits: 2) } for { $whose }.
    .advice = { $do_now }
    .meaning = The water now: too much nitrate.

alkalinity-low = Alkalinity is { AMOUNT($read_mg_per_l) } as CaCO3 ({ $when }), below
    { AMOUNT($limit_mg_per_l) }: the biofilter uses it up, then the pH falls and ammonia
    rises.
    .advice = { $do_now }
    .meaning = The water now: too little buffer for a biofilter; watch.

ph-high = { $case ->
        [act] The pH is { $ph } ({ $when }), above { $limit }, which harms { $whose }.
       *[watch] The pH is { $ph } ({ $when }), above { $limit }, which is outside what is
            good for { $whose }.
    }
    .advice = { $do_now }
    .meaning = The water now: too alkaline; watch or act.

ph-low = { $case ->
        [act] The pH is { $ph } ({ $when }), below { $limit }, which harms { $whose }.
       *[watch] The pH is { $ph } ({ $when }), below { $limit }, which is outside what is
            good for { $whose }.
    }
    .advice = { $do_now }
    .meaning = The water now: too acid; watch or act.

not-judged = { $case ->
        [ammonia-reading] Ammonia not judged: { LIST($lacking, last: "and") } not read of
            late.
        [ammonia-temperature] Ammonia not judged: the water's temperature is not known.
        [ammonia-salt] Ammonia in salt water is judged by fresh water's figures, which are
            strict for it.
        [salt] Whether the fish bear { AMOUNT($salinity_g_per_kg) } of salt is not judged.
        [gas] Whether the water holds too much gas is not judged: its temperature is not
            known.
        [dawn] Oxygen in a pond is lowest before sunrise; read it then too.
        [chloride] Nitrite is judged as in water with 10 mg/L chloride, which was not read
            of late; with less, fish bear less nitrite.
        [nitrite] Nitrite not judged: not read of late.
        [alkalinity] Alkalinity not judged: not read of late.
       *[alkalinity-elsewhere] Alkalinity not judged: it is judged where water comes back to
            the fish through a filter.
    }

note-alkalinity = 20 mg/L as CaCO3, common practice, no source; ammonia in salmon loops was
    the lower the higher it was, at 10, 70 and 200 mg/L: Summerfelt et al. 2015 Aquac Eng
    65:46-54, summary

## husbandry: feed, growth, limits

outside-source-range = The { $name } of { NUMBER($value, atMost: 4) } { $unit } is outside the
    source's { $low } to { $high } { $unit }; take the figure as a rough guide.
    .meaning = A calculation is outside the range of its source.

too-warm-to-feed = At { AMOUNT($water_deg_c, decimals: 1) } no ration is given for this
    species, which is fed up to { AMOUNT($limit_deg_c) }.{ $deadly ->
        [yes] { " " }Fish of this species have died in such water.
       *[no] {""}
    } Stop feeding, watch the oxygen and feed again when the water has cooled.
    .meaning = The water is too warm for feeding.

too-cold-to-feed = At { AMOUNT($water_deg_c, decimals: 1) } no ration is given for this
    species, which is fed from { AMOUNT($limit_deg_c) }.{ $deadly ->
        [yes] { " " }Fish of this species have died in such water.
       *[no] {""}
    } Stop feeding and leave the fish in peace until the water is warmer.
    .meaning = The water is too cold for feeding.

no-growth-temperature = On { $idle_days } of { $days } days ahead the water is forecast
    outside { NUMBER($low_deg_c) } to { AMOUNT($high_deg_c) }, where this species feeds; no
    growth is counted on them. Weigh a sample when the fish feed again.
    .meaning = Part of the forecast is too cold or warm for growth.

no-stocking-temperature = The water has { AMOUNT($water_deg_c, decimals: 1) }; the fish here
    feed from { NUMBER($low_deg_c) } to { AMOUNT($high_deg_c) }. Add none, do not handle
    them, and ask again when the water is in that range.
    .meaning = The water is too cold or warm to add fish.

sample-disagrees = { $case ->
        [above] The sample of { DAY($on) } is { NUMBER($standard_errors, decimals: 1) }
            standard errors above what the earlier ones foretell.
       *[below] The sample of { DAY($on) } is { NUMBER($standard_errors, decimals: 1) }
            standard errors below what the earlier ones foretell.
    }
    .advice = Check the weighing, the count and which fish were netted.
    .meaning = A sample does not agree with the book.

over-limit = { $limit }: { PERCENT($used) } of the limit is used, it may be
    { PERCENT($used_at_most) }.
    .advice = Feed less, add to what limits, or keep fewer fish.
    .meaning = A limit of the unit is likely passed.

near-limit = { $limit }: { PERCENT($used) } of the limit is used, it may be
    { PERCENT($used_at_most) }.
    .advice = Feed less, add to what limits, or keep fewer fish.
    .meaning = A limit of the unit may be passed, at the unsafe end.

ammonia-over-limit = Un-ionised ammonia may be { AMOUNT($most_mg_per_l, decimals: 3) }, over
    the limit of { NUMBER($limit_mg_per_l) }.
    .advice = Stop feeding, exchange water and measure again.
    .meaning = Un-ionised ammonia is over the species' limit.

ammonia-over-criterion = Total ammonia nitrogen may be { AMOUNT($most_mg_per_l, atMost: 2) },
    over the { AMOUNT($criterion_mg_per_l, atMost: 2) } that may last at pH { $ph } and
    { AMOUNT($water_deg_c) } (US EPA 2013, which protects mussels too).
    .advice = Feed less, exchange water and measure again.
    .meaning = Total ammonia is over what may last at this pH.

nitrate-over-limit = Nitrate may be over the limit of { AMOUNT($limit_mg_per_l) } as N now.
    .advice = Exchange more water, feed less or add plants.
    .meaning = Nitrate may be over its limit.

nitrate-limit-ahead = Nitrate may be over the limit of { AMOUNT($limit_mg_per_l) } as N in
    { $days } days.
    .advice = Exchange more water, feed less or add plants.
    .meaning = Nitrate may reach its limit within the time ahead.

## husbandry: where figures come from

note-feed-chart = Ration from the trout chart of Leitritz & Lewis 1980 (Calif. Fish Bull.
    164): dry feed, straight lines between its cells.
note-feeding-ends = Feeding ends at { AMOUNT($end_deg_c) }
note-ration-by-growth = Ration = expected growth x feed conversion, no table of this species.
note-feed-conversion = Feed conversion { $fcr }
note-feed-weighed = Feed given is taken as weighed exactly.
note-tgc = TGC { $tgc }
note-published-tgc = Published TGC { $tgc }
note-growth = { $case ->
        [published] Growth is as published: there is one sample only. { $start }
       *[fitted] Growth is fitted to { $samples } samples of this cohort, starting from the
            published figure. { $start }
    }
note-unionised-share = Un-ionised share: Emerson et al. 1975, fresh water; pH to 0.1.
note-unionised-in-salt = In salt water the un-ionised share is smaller; this is the safe side.
note-ammonia-limit = Limit { AMOUNT($limit_mg_per_l) } un-ionised ammonia nitrogen
note-ammonia-criteria = Total ammonia criteria: US EPA 2013 (822-R-13-001); the chronic one is
    a 30-day mean and protects mussels too, which bear less than fish.
note-nitrate-limit = Limit { AMOUNT($limit_mg_per_l) } nitrate nitrogen
note-feed-nitrogen = Nitrogen of the feed: 0.092 to 0.128 of its protein, Timmons & Ebeling on
    a third-party page; both rules are kept.
note-plant-uptake = Uptake of the plants is computed from the feed that a full, growing bed
    carries; no uptake figure was found.
note-feed-per-bed = Feed per bed area: FAO Technical Paper 589 and Rakocy 2007, which differ
    by up to twice.
note-density-limit = Density limit { AMOUNT($limit_kg_per_m3) }
note-own-density = Density limit as set for the unit.
note-density-index = Density index 0.5 lb/ft3 per inch: Piper et al. 1982; SRAC 222 to 1.0.
note-flow-index = Flow index 1.0 lb/(in gpm): SRAC 222 gives 0.5-1.0, Piper et al. 1982 1.5 at
    10 °C. Oxygen, drawn up apart, is the better guide.
note-feed-for-ammonia = Feed for the ammonia limit at pH { $ph }, the stricter of the species'
    own and the criterion. { $criteria } { $nitrogen }
kept-oxygen = { $case ->
        [own] as set for the unit
        [rule] { AMOUNT($saturation_percent) } of saturation, { $source }
       *[caution] the caution level of the strictest species
    }
note-oxygen-supply = { $case ->
        [read] Oxygen supply at { AMOUNT($kept_mg_per_l, atMost: 3) } ({ $why }) against fed
            fish, their use from readings too.
       *[published] Oxygen supply at { AMOUNT($kept_mg_per_l, atMost: 3) } ({ $why }) against
            fed fish.
    }
note-oxygen-use = Oxygen use of fasted fish
note-fed-factor = The factor { $factor } after a meal
note-drawn-up = Drawn up at { AMOUNT($kept_mg_per_l) }; caution { NUMBER($caution_mg_per_l) }
note-still-surface = Surface of still water: sources disagree, 0 to 0.6 m/d; all is kept.
note-inflow-saturation = Inflow without a reading is taken as { PERCENT($share) } saturated,
    common practice without a source.
note-alpha-beta = Aerators in fish water: alpha 0.8 and beta 0.95 unless set are common
    practice without a source.
note-recirculated = Recirculated water is taken to come back 95 % saturated. A filter under
    water uses oxygen itself (4.57 g for each g of ammonia nitrogen, by stoichiometry), which
    is not counted: measure what comes back.
note-gas-transfer = { $case ->
        [fine] Gas by the litre: { AMOUNT($each_percent) } of its oxygen is taken up for each
            metre of depth (fine bubbles), low ends of clean-water tests in EPA 1989, from
            memory and not checked against its source.
        [medium] Gas by the litre: { AMOUNT($each_percent) } of its oxygen is taken up for each
            metre of depth (medium bubbles), low ends of clean-water tests in EPA 1989, from
            memory and not checked against its source.
       *[coarse] Gas by the litre: { AMOUNT($each_percent) } of its oxygen is taken up for each
            metre of depth (coarse bubbles), low ends of clean-water tests in EPA 1989, from
            memory and not checked against its source.
    }
note-paddlewheel = Paddlewheels: { $kg_per_kwh } kg of oxygen per kWh, mean of 1.1 to 3.0 in
    Boyd 1998, from memory and not checked against its source.

## husbandry: what if something stops

stop = { $case ->
        [power] Power cut
        [pump] Pump stops
        [intake] Intake or screen blocked, or the supply cut
        [one-blower] { CAPITAL($device) } stops
        [blower] All aerators stop
        [device] { CAPITAL($device) } alone stops
       *[oxygen] Oxygen supply empty
    }
duration = { $case ->
        [day] 24 h or more
        [hours] { $hours } h { $minutes } min
       *[minutes] { $minutes } min
    }
time = { $case ->
        [at-once] at once
        [never] not within 24 h
        [sure] after { $low }
        [likely-never] { $soon ->
            [yes] perhaps at once (likely not within 24 h)
           *[no] after { $low } at the soonest (likely not within 24 h)
        }
        [perhaps-never] { $soon ->
            [yes] perhaps at once (likely { $middle }, or not within 24 h at all)
           *[no] after { $low } (likely { $middle }, or not within 24 h at all)
        }
       *[span] { $soon ->
            [yes] perhaps at once (likely { $middle }, at most { $high })
           *[no] after { $low } (likely { $middle }, at most { $high })
        }
    }
outage-level = { $case ->
        [caution] caution ({ AMOUNT($level_mg_per_l) }) { $time }
       *[critical] critical ({ AMOUNT($level_mg_per_l) }) { $time }
    }
outage-line = { ALTERNATIVES($names) }: { $caution }; { $critical }.
alternatives = { $first }; or { LOWER($other) }
measure = { $case ->
        [fresh-water] { AMOUNT($flow_l_per_min, decimals: 0) } of fresh water
        [fewer-fish] { PERCENT($share) } fewer fish
        [fasted] fish fasted since the day before
       *[backup] { LIST($devices, last: "and") }
    }
backup-unknown = { $store ->
        [cylinder] for as long as its cylinder lasts: not entered
       *[battery] for as long as its battery lasts: not entered
    }
backup-lasts = { $case ->
        [span] { $store ->
            [cylinder] its cylinder lasts { NUMBER($least_h, atMost: 3) } to
                { AMOUNT($most_h, atMost: 3) }
           *[battery] its battery lasts { NUMBER($least_h, atMost: 3) } to
                { AMOUNT($most_h, atMost: 3) }
        }
       *[one] { $store ->
            [cylinder] its cylinder lasts { AMOUNT($most_h, atMost: 3) }
           *[battery] its battery lasts { AMOUNT($most_h, atMost: 3) }
        }
    }
backup-lasting = { LIST($lasting, between: "; ") }
gain = { $case ->
        [nothing] nothing sure
       *[likely] { $gain } (likely { $likely })
    }
measure-line = { $case ->
        [unknown] { $name }: { $note }
        [noted] { $name } ({ $note }): { $gain }
       *[bare] { $name }: { $gain }
    }
note-use-held = The fish's use is held constant as the oxygen falls: the safe side.
note-cloudy-pond = A cloudy or earthen pond uses far more oxygen than its fish.
note-caution-level = Caution level { AMOUNT($level_mg_per_l) }
note-critical-level = Critical level { AMOUNT($level_mg_per_l) }
chart-interval = { $percent } % interval
chart-expected = expected
chart-hours-after = hours after the stop
chart-oxygen = dissolved oxygen, mg/L
chart-level = { $case ->
        [caution] { $never ->
            [yes] caution { AMOUNT($level_mg_per_l) }: 24 h or more
           *[no] caution { AMOUNT($level_mg_per_l) }: { $low } to { $high }
        }
       *[critical] { $never ->
            [yes] critical { AMOUNT($level_mg_per_l) }: 24 h or more
           *[no] critical { AMOUNT($level_mg_per_l) }: { $low } to { $high }
        }
    }
chart-outage = { $name }, at { AMOUNT($start_mg_per_l, decimals: 1) },
    { AMOUNT($water_deg_c) }, { AMOUNT($fish_kg, decimals: 0) } of fish

## husbandry: cautions

caution-estimate = An estimate is no measurement. Act on the interval's unsafe end: the
    highest biomass for oxygen, the lowest for sales.
caution-oxygen = Oxygen and outage times are planning figures. Measure dissolved oxygen with a
    meter and keep a tested backup.
caution-electrical = Have electrical work near water done, and protected by a
    residual-current device, by a licensed electrician under the local code.
caution-handling = Handle fish with wet hands, briefly out of water and in cool water; take no
    sample in heat or at low oxygen.
caution-tub = Fish in a weighing tub: minutes, not longer; water of their own unit, aerated; watch
    them, and stop when they gasp or roll. No more than 0.1 kg of fish in a litre (brown trout of
    76 g stood that for 14 h with oxygen at 10 °C; in warm water take half), and back within 5
    minutes (common practice, no source).
caution-anaesthetics = Use only anaesthetics licensed where you are, under a veterinarian's
    direction, and keep the withdrawal time.
caution-slaughter = Slaughter humanely and as local law says.
caution-fasting = Withhold feed before slaughter no longer than 54 degree-days (days times
    °C): 4 days at 13 °C, 6 at 9 °C.
caution-dead-fish = Fish found dead are not food by default: cause and time are unknown.
    Follow local food-safety rules.
caution-permits = Discharge, escapes and non-native species: local permits decide.

## species

sourced = { $case ->
        [stand-in] { $what }: { $source } (of another species, for want of its own).
        [memory] { $what }: { $source } (from memory, not checked against its source).
        [practice] { $what }: { $source } (common practice, no source).
       *[seen] { $what }: { $source }.
    }

# Another language tells $key apart: rainbow-trout and so on.
species-name = { $name }
asked = : { LIST($names, last: "or") }?

origin = { $case ->
        [computed] computed from figures that were read: { $source }
        [stand-in] of another species, for want of its own: { $source }
        [memory] from memory, not checked against its source: { $source }
        [practice] common practice, no source: { $source }
       *[seen] read at its source: { $source }
    }

tested = { $case ->
        [real] Tested on { $photos } real photos. { $result }
       *[not] Not validated on photos.{ $result }
    }

lw-figure = { $size } { $value } { $unit }

lw-data = { $case ->
        [one-size] without fish { $fish } the others are all of one size
        [few] there are { $fish } fish; { $needed } are needed
        [few-outlines] { $fish } of the fish in the photos can be weighed by their outlines;
            { $needed } are needed
        [wrong] fish { $fish } has the { $figure }
        [no-net] no net is both weighed and photographed with fish whose outlines can be used
       *[one-length] the fish are all of one length, so no slope can be fitted
    }

depth-beside-length = { $case ->
        [helps] With depth as well it would be { AMOUNT($error_percent, decimals: 1) }: depth
            helps here.
       *[idle] With depth as well it would be { AMOUNT($error_percent, decimals: 1) }: depth is
            not worth measuring here.
    }

source-own-fit = Own fit of { $fish } fish weighed one by one. { $note }
source-own-level = Level of { $fish } own fish, b as published. { $note }
source-own-nets = Bulk weighing of { $weighed } own fish, outlines of { $fish } in { $photos }
    photos. { $note }
source-own-heights = { $fish } own fish in { $photos } photos, fork lengths read on a ruler.
    { $note }
source-own-body = { $fish } own fish in { $photos } photos, weighed one by one. { $note }
source-own-book = { $entries ->
        [one] Own fish photographed and weighed, in the book on { DAY($newest) }. { $note }
       *[other] Own fish photographed and weighed, { $entries } entries of the book up to
            { DAY($newest) }. { $note }
    }

no-such-key = { $case ->
        [near] there is no such key; is { $near } meant?
        [inherited] there is no such key in a stock's own file; its species has it
       *[far] there is no such key
    }

file-reason = { $case ->
        [not-text] it is not text in UTF-8
       *[not-toml] it is not valid TOML: { $told }
    }

## outlook

aeration-short = Oxygen in { $unit } was read at { AMOUNT($read_mg_per_l, atMost: 3) }, less
    than fish of this weight would leave of what its inflow and aerators bring as entered. So
    no room for more fish is given.
    .advice = Look whether the aerators run and bring what is entered, and read again.
    .meaning = Oxygen was read lower than inflow and aerators would leave it.

aerator-unknown = It is not known what { $device } in { $unit } brings, so it is not counted.
    .advice = Enter the litres of air a minute with the depth of its diffuser, or the standard
        rate of its data sheet.
    .meaning = It is not known what an aerator brings.

biofilter-unknown = { $case ->
        [ph] The pH in { $unit } was not read of late. How much ammonia the fish bear, and so
            how much more feed the filter can clean, depends on it; no room for more fish is
            given.
       *[size] How much more feed the filter of { $unit } can clean is not known, so no room
            for more fish is given.
    }
    .advice = { $case ->
        [ph] Read the pH and enter it.
       *[size] Enter for the unit the feed a day that its biofilter was sized for.
    }
    .meaning = What more feed the filter of a loop can clean is not known.

pond-use-unknown = How much oxygen the water and the bottom of { $unit } use is not entered; in
    a pond it is often more than the fish use. So no room for more fish is given.
    .advice = Read the oxygen at dusk and before sunrise, and enter for the unit by how many
        mg/L it falls in an hour, less what the fish use.
    .cli = { pond-use-unknown.advice } To enter it: fishmeasure book change unit
        { SHELL($unit) } water_respiration_mg_per_l_h=…
    .meaning = What water and bottom of a pond use of oxygen is not known.

no-oxygen-supply = No inflow and no aerator are entered for { $unit }, so oxygen cannot be
    worked out, and no room for more fish is given.
    .advice = Enter its litres of new water a minute, or its aerators.
    .cli = { no-oxygen-supply.advice } To enter it: fishmeasure book change unit
        { SHELL($unit) } inflow_l_per_min=… or fishmeasure book change unit { SHELL($unit) }
        aeration='{ "[{\"name\": \"air pump\", \"gas_l_per_min\": …, \"diffuser_depth_m\": …}]" }'
    .meaning = Nothing is entered that brings a unit its oxygen.

withdrawal-period = { $case ->
        [until] No fish for food before { DAY($ends_on) }: { $product } was given.
       *[never] No fish for food: { $product } was given, and the water does not gather its
            degree-days within three years.
    }
    .advice = Keep them until then; the label and the veterinarian decide.
    .meaning = A medicine's withdrawal period has not passed.

too-late-to-order = Fish of this size that came today would weigh { AMOUNT($reached_g, digits: 3) } on
        { DAY($on) }, not { AMOUNT($plate_g) }.
    .advice = Order larger ones, or harvest later.
    .meaning = Fingerlings of this size cannot be at plate size on the wanted day.

due-feed = Feed { AMOUNT($ration_kg, digits: 2) } today{ $fed_kg ->
    [0] .
   *[other] ; { AMOUNT($fed_kg, digits: 2) } is given.
}

due-sample = { $case ->
    [never] { $cohort } was never sampled.
   *[late] { $cohort } was sampled last on { DAY($on) }.
}

due-plate-size = { $fish_count } of { $cohort } at least are at { AMOUNT($plate_g) }.

no-weight = No weight is known of { $cohort }.
    .advice = Take a net sample.
    .meaning = The weight of a cohort's fish is not known.

load-incomplete = Fish of unknown weight in { $unit } are left out of feed and limits, which are
    nearer than shown.
    .advice = Take a net sample.
    .meaning = Feed and limits leave out fish of unknown weight.

oxygen-use-differs = By the readings the fish in { $unit } use { NUMBER($measured, atMost: 3) }
    g/h of oxygen, by their weight { NUMBER($modelled, atMost: 3) }.
    .advice = Check the inflow as entered, the meter or test, and the number of fish; read
        again.
    .meaning = Readings and the fish's weight disagree on how much oxygen they use.

ammonia-use-differs = By the readings the fish in { $unit } give off
    { NUMBER($measured, atMost: 3) } g/day of ammonia, by their weight
    { NUMBER($modelled, atMost: 3) }.
    .advice = Check the inflow as entered, the meter or test, and the number of fish; read
        again.
    .meaning = Readings and the feed disagree on how much ammonia the fish give off.

note-weighed-use = { $case ->
        [oxygen] Oxygen from the fish: { NUMBER($modelled, atMost: 3) } g/h by the model,
            { NUMBER($measured, atMost: 3) } by the readings and the inflow; weighed by their
            errors { NUMBER($weighed, atMost: 3) }. A reading is one moment: its share of error
            for hour and meal, 15 % for oxygen and 25 % for ammonia, has no source.
       *[ammonia] Ammonia from the fish: { NUMBER($modelled, atMost: 3) } g/day by the model,
            { NUMBER($measured, atMost: 3) } by the readings and the inflow; weighed by their
            errors { NUMBER($weighed, atMost: 3) }. A reading is one moment: its share of error
            for hour and meal, 15 % for oxygen and 25 % for ammonia, has no source.
    }

figure-from = { $case ->
        [read-on] read on { DAY($on) }
        [expected] expected
        [read] { $read }, not higher than the { AMOUNT($other_mg_per_l, decimals: 1) } worked out
        [lower-than-read] worked out, lower than the
            { AMOUNT($other_mg_per_l, decimals: 1) } { $read }
       *[worked-out] worked out
    }

note-usual-cv = Spread of weights: CV 0.25, typical of unsorted trout (Rasmussen & Ostenfeld);
    no sample gave one.
note-unseen-losses = Unseen losses (1 % a month) and tolerances that no entry states are common
    practice, no source.
note-water = { $case ->
        [oxygen] Water, oxygen: { $source }
        [temperature] Water, temperature: { $source }
        [ammonia] Water, ammonia: { $source }
        [nitrite] Water, nitrite: { $source }
        [ph] Water, pH: { $source }
        [alkalinity] Water, alkalinity: { $source }
       *[nitrate] Water, nitrate: { $source }
    }

## render: an outlook in sentences

outlook-heading = { $unit }: outlook on { DAY($on) }

outlook-section = { $case ->
        [weights] 1  How heavy, how far apart
        [kilograms] 2  How many kilograms
        [growth] 3  Growth and harvest
        [feed] 4  Feed
        [limits] 5  Limits and room
        [outages] 6  If something stops tonight
       *[grading] 7  Grading and condition
    }

outlook-no-answer = No answer yet; see the warnings.

of-cohort = { $cohort }:

outlook-weight = { $case ->
        [unknown] { $cohort }: weight not known. Take a net sample.
        [usual] { $cohort }: mean { AMOUNT($mean_g, digits: 3) }; CV { NUMBER($cv, digits: 2) },
            usual figure: nine in ten between { NUMBER($low_g, digits: 3) } and
            { AMOUNT($high_g, digits: 3) }. { CAPITAL($source) }.
       *[known] { $cohort }: mean { AMOUNT($mean_g, digits: 3) }; CV { NUMBER($cv, digits: 2) }:
            nine in ten between { NUMBER($low_g, digits: 3) } and { AMOUNT($high_g, digits: 3) }.
            { CAPITAL($source) }.
    }

outlook-biomass = { $case ->
        [unknown] { $cohort }: { NUMBER($fish, decimals: 0, all: 1) } fish, weight not known.
            { CAPITAL($source) }.
       *[known] { $cohort }: { NUMBER($fish, decimals: 0, all: 1) } fish,
            { AMOUNT($biomass_kg, digits: 3) }. { CAPITAL($source) }.
    }

outlook-total = In all { AMOUNT($biomass_kg, digits: 3) }; at most
    { AMOUNT($density_kg_per_m3, digits: 3) } in { AMOUNT($volume_m3, digits: 3) }.

outlook-growth = { $case ->
        [tgc] { NUMBER($growth, digits: 2) } % a day over the next 30 days (TGC
            { NUMBER($tgc, digits: 3) }).
       *[bare] { NUMBER($growth, digits: 2) } % a day over the next 30 days.
    }

outlook-plate-size = At plate size, { AMOUNT($size_g, digits: 3) }: the first { $first }; half
    { $half }; nearly all { $nearly_all }.

reached-on = { $case ->
        [later] later than two years from now
        [now] now ({ DAY($day) })
        [open] { DAY($day) } ({ DAY($earliest) } to later than two years)
       *[span] { DAY($day) } ({ DAY($earliest) } to { DAY($latest) })
    }

outlook-harvests = { $case ->
        [one] If fish are harvested, taken are the largest, as many as are at plate size at the
            low end of what is known: { $harvest }.
       *[choice] To choose between, no schedule: each line is the only harvest; taken are the
            largest, as many as are at plate size at the low end of what is known.
    }

outlook-choice = { $case ->
        [first] Either { $harvest },
        [next] or { $harvest },
       *[last] or { $harvest }.
    }

outlook-harvest = on { DAY($day) }: { NUMBER($ready_low, decimals: 0) } to
    { NUMBER($ready_high, decimals: 0) } fish at plate size (likely
    { NUMBER($ready, decimals: 0) }); the { $taken } largest are
    { AMOUNT($taken_kg, digits: 3) } and leave { NUMBER($left, decimals: 0) } fish,
    { AMOUNT($left_kg, digits: 3) }

outlook-grading = The smallest tenth is under { AMOUNT($small_g, digits: 3) } (about
    { AMOUNT($small_mm, decimals: 0) } fork length), the largest tenth over
    { AMOUNT($large_g, digits: 3) } ({ AMOUNT($large_mm, decimals: 0) }). { $advice }

outlook-grade = { $case ->
        [yes] They spread as unsorted fish do: grading is worth while.
       *[no] They are close together: grading can wait.
    }

outlook-condition = { $case ->
        [unknown] Condition factor: no sample gave one.
        [low] Condition factor { NUMBER($factor, digits: 3) }, published
            { NUMBER($published, decimals: 2) } at this length: low. Look at feed, disease and
            crowding.
        [high] Condition factor { NUMBER($factor, digits: 3) }, published
            { NUMBER($published, decimals: 2) } at this length: high. A lower ration may do.
       *[normal] Condition factor { NUMBER($factor, digits: 3) }, published
            { NUMBER($published, decimals: 2) } at this length: normal.
    }

outlook-feed = { $case ->
        [wait] { $wait } Given in the last seven days { AMOUNT($given_kg, digits: 2) }.
       *[ration] Today { AMOUNT($today_kg, digits: 2) }, the week ahead
            { AMOUNT($week_kg, digits: 2) }; given in the last seven days
            { AMOUNT($given_kg, digits: 2) }.
    }

outlook-conversion = Feed conversion since { DAY($since) }: { NUMBER($biological, digits: 3) }
    biological, { NUMBER($economic, digits: 3) } economic ({ AMOUNT($given_kg, digits: 3) } fed,
    { AMOUNT($gain_kg, digits: 3) } gained).

outlook-period-conversion = { $cohort }, from { DAY($since) } to { DAY($until) }:
    { AMOUNT($feed_kg, digits: 3) } fed, { AMOUNT($gain_kg, digits: 3) } gained, feed conversion
    { NUMBER($conversion, digits: 3) }, by samples, feed and what is usual together.

limit-within = { $case ->
        [density-index] density index
        [flow-index] flow index
        [density] density
        [oxygen] oxygen
       *[ammonia] ammonia
    }

outlook-used = { $limit } { SHARE($share) }

outlook-all-used = Used: { LIST($used, between: "; ") }.

outlook-first = First reached: { $limit }; { $room }.

outlook-room = { $case ->
        [wait] no room while the water is as it is
        [unknown] what room there is for more is not known
        [too-much] { AMOUNT($room_kg, digits: 2) } too much at the unsafe end
       *[room] room for { AMOUNT($room_kg, digits: 2) } more
    }

outlook-too-many = { $case ->
        [wait] By these limits { $fish } fish are too many until { DAY($until) }; take none out
            before the water is better.
        [sure] By { DAY($until) }, { $fish } fish must have gone, the first by
            { DAY($first_on) } ({ $limit }, at the unsafe end).
       *[unsafe-end] From { DAY($first_on) } on the limit of { $limit } may be passed, at the
            unsafe end: up to { $fish } fish would have to go by { DAY($until) }. Take a net
            sample before that, to know it better.
    }

outlook-fingerlings = { $case ->
        [read-first] Until { DAY($until) }, { $fish } fingerlings of { $species } of
            { AMOUNT($each_g, digits: 3) } may be added ({ FINGERLINGS($each_g) }; { AMOUNT($in_all_kg, digits: 2) }); add
            none before temperature and oxygen were read.
       *[now] Until { DAY($until) }, { $fish } fingerlings of { $species } of
            { AMOUNT($each_g, digits: 3) } may be added ({ FINGERLINGS($each_g) }; { AMOUNT($in_all_kg, digits: 2) }).
    }

outlook-ammonia = { $case ->
        [read] un-ionised ammonia up to
            { NUMBER($unionised_mg_per_l, digits: 2, end: "high") } mg/L as N, limit
            { AMOUNT($limit_mg_per_l) }
       *[unread] ammonia not read this week (TAN and pH)
    }

outlook-nitrate = { $case ->
        [not-reached] nitrate { $course } mg/L as N in 60 days, limit of
            { AMOUNT($limit_mg_per_l) } not reached
       *[reached] nitrate { $course } mg/L as N in 60 days, limit of
            { AMOUNT($limit_mg_per_l) } may be reached in { $days } days
    }

nitrate-course = { $case ->
        [falling] { NUMBER($begun_mg_per_l, digits: 2) }, falling to
            { NUMBER($most_mg_per_l, digits: 2) } at most (likely
            { NUMBER($likely_mg_per_l, digits: 2) })
        [likely-falling] { NUMBER($begun_mg_per_l, digits: 2) }, likely falling to
            { NUMBER($likely_mg_per_l, digits: 2) } (at most
            { NUMBER($most_mg_per_l, digits: 2) })
       *[rising] { NUMBER($begun_mg_per_l, digits: 2) }, rising to
            { NUMBER($most_mg_per_l, digits: 2) } at most (likely
            { NUMBER($likely_mg_per_l, digits: 2) })
    }

crop-bed = { $case ->
        [leafy] leafy bed
        [fruiting] fruiting bed
        [nft] nft bed
       *[raft] raft bed
    }

outlook-bed = the feed carries { AMOUNT($area_m2, digits: 2) } of { $bed }

outlook-outage-begins = Begins at { AMOUNT($start_mg_per_l, digits: 2) } ({ $start_from }) and
    { AMOUNT($water_deg_c, digits: 2) } ({ $water_from }).

outlook-taken-as-pumped = New water is taken as pumped, so none comes in a power cut. If it
    flows in by itself, say so of the unit.

outlook-bought = { $name }: what buys time at least: { LIST($bought, between: "; ") }.

outlook-hold = To last { $hours } hours there could be no more than
    { AMOUNT($fish_kg, digits: 3) } of fish; to hold the caution level it takes
    { AMOUNT($air_g_per_h, digits: 2) } of backup air (standard rate) or
    { AMOUNT($water_l_per_min, digits: 2) } of fresh water.

water-figure = { $case ->
        [oxygen] oxygen
        [temperature] temperature
        [ammonia] ammonia
        [nitrite] nitrite
        [ph] pH
        [alkalinity] alkalinity
       *[nitrate] nitrate
    }

must-wait = { $case ->
        [feeding] No feed before the water is better ({ $about }, see above).
        [handling] Do not net, sample, grade or move fish before the water is better ({ $about },
            see above).
       *[adding] Add no fish before the water is better ({ $about }, see above).
    }

## render: plots, paper

outlook-sources = Sources and allowances: { $notes }
outlook-sources-head = Sources and allowances
outlook-cautions = Cautions
outlook-warnings = Warnings
plot-mean-weight = mean weight, { unit-g }
plot-mean-of-a-fish = mean weight of a fish, { unit-g }
plot-weight = weight, { unit-g }
plot-weight-of-a-fish = weight of a fish, { unit-g }
plot-tick = { NUMBER($figure) }
plot-share = share of the fish, %
plot-fish-in-each = fish in each { AMOUNT($step_g) }
plot-growth = Growth: samples, projection, plate size (dashed)
plot-growth-so-far = Growth so far and ahead
plot-weights-today = Weights today, plate size (dashed)
plot-weights-in-unit = Weights in the unit
plot-spread = { $case ->
        [thin] Weights: nine in ten fish (thin),
       *[thick] half of them (thick)
    }
plot-interval = { $cohort }, { $percent } % interval
plot-plate-size = plate size { AMOUNT($plate_g, decimals: 0) }
plot-no-fish = No fish in this unit on this day.
plot-used = used, % of the limit
plot-limits = Limits
plot-level = { $case ->
        [caution] caution { $level }
       *[critical] critical { $level }
    }
plot-oxygen = oxygen, mg/L
plot-tonight = Tonight: { LOWER($name) }
plot-look-again = fish { $fish }: look again
plot-own-line = this stock: W = { $a } L^{ NUMBER($b, decimals: 3) }, { $fish } fish, band 2 sd
plot-published-line = published: W = { $a } L^{ NUMBER($b, decimals: 3) }
plot-length = { $case ->
        [total] total length, { unit-mm }
        [standard] standard length, { unit-mm }
       *[fork] fork length, { unit-mm }
    }
plot-single-fish = Length and weight of single fish
plot-nets = Nets weighed and measured
plot-disagrees = { $net }: does not agree
plot-on-published = this stock, { $off } % on published
plot-shaded = ({ $percent } % interval shaded)
plot-published = published
plot-mean = mean { AMOUNT($mean_g, decimals: 0) }, { $percent } % interval
    { NUMBER($low_g, decimals: 0) } to { AMOUNT($high_g, decimals: 0) }
plot-below = { $case ->
        [tenth] 10 % below { AMOUNT($weight_g, decimals: 0) }
        [half] half below { AMOUNT($weight_g, decimals: 0) }
       *[nine-tenths] 90 % below { AMOUNT($weight_g, decimals: 0) }
    }
plot-measured = { $fish } measured fish

# A line each of the printed pages: as long as the page is wide.
sheet-words = { $case ->
        [check] Measure this line. Not 100 mm? Give measured / 100 as the print scale (97 mm:
            0.97).
        [print] Print at 100 % ("actual size", never "fit to page"), on matte paper: gloss and
            plastic covers glare.
        [sheet] Lay it flat. Fish on the sheet, or beside it on the same surface. Photograph from
            straight above, all four markers in view.
        [cards] Cut along the dashed lines; leave the white edge on. Glue to something stiff and
            flat, and lay one card near
        [cards-laid] each corner of the tray, on the surface that the fish lie on. Photograph from
            straight above, all cards in view.
        [single] Cut along the dashed line; leave the white edge on. Glue to something stiff and
            flat, and lay it beside the fish, on the
        [single-laid] same surface. Photograph from straight above. Four cards or the sheet
            measure better than one.
        [tub-print] Print at 100 % ("actual size", never "fit to page") and laminate it with
            matt film, or slide it into a matt, watertight sleeve: gloss mirrors the sky.
        [tub] Lay it flat on the bottom of the tub, weighed down at its corners by something
            flat and dull; water just over the backs of the fish. Photograph from
        [tub-still] straight above, 60 to 90 cm up, no sky mirrored over the sheet, the water at
            rest; take three photos. A sheet reads surer than cards in rippled water.
        [tub-cards] Laminate each card with matt film, and glue it to something flat that sinks
            (slate, tile, steel). For round tubs that the sheet does not fit in: one card
        [tub-cards-laid] near each side, level on the bottom, all in view. Ripples move a card by
            a millimetre or two: let the water rest, and take three photos.
        [dummy-print] Print at 100 %, laminate with matt film and cut out the fish along its dark
            edge; its length, snout to tail, is 200 mm (measure it).
        [dummy] Glue it level onto a flat, straight spacer narrower than itself, so that it
            lies 30 to 50 mm over the sheet; measure that height.
        [dummy-laid] Lay it in the tub beside the sheet, water over it, and photograph: then
            fishmeasure check PHOTO --length-mm 200 --height-mm HEIGHT --water
       *[lens-board] Print at 100 %, glue to something flat, and take 8 or more photos from
            different sides, near and filling the frame.
    }

five-fish-title = Photograph and weigh five fish
five-fish = { $case ->
        [step-0] This teaches the program the body of your stock: then a photo alone tells the
            weight.
        [step-1] 1. Take five fish of the sizes that you keep, not the five largest. Fasted for a
            day; no ripe fish and no swollen bellies: an outline cannot tell them from fat.
        [step-2] 2. Wet the board. Lay the printed sheet or cards flat, and one fish, or a few
            apart, on its side beside them: belly and back free, fins down, no hard shadow along
            it.
        [step-3] 3. Photograph from straight above, the fish at least a quarter of the photo's
            width. Two or more photos are better than one: light and edges are a photo's own.
        [step-4] 4. Weigh each of them at once, wiped, to 1 g or 1 % (the finer), and write down
            here the photo and which fish in it, counted from the top, row by row, left to right
            ("fishmeasure photo PHOTO --overlay FOLDER" draws the numbers).
        [step-5] 5. On the phone page open the unit, "Photograph and weigh five fish", and type
            them there. Or type the table into a file five.csv with the head
            photo,fish,weight_g and run fishmeasure fit five.csv --species SPECIES --save my_stock.toml
       *[step-6] 6. Use my_stock.toml as the species from then on. Weigh five again after
            spawning, after a change of feed, and when a bulk weighing disagrees.
    }
five-fish-column = { $case ->
        [date] date
        [photo] photo
        [fish] fish
        [weight] weight, { unit-g }
       *[notes] notes
    }

## photo: what is doubtful in a photo

# A flag of a fish.
flag = { $case ->
        [edge-cut] The fish runs out of the photo.
        [hidden] Part of the fish is covered.
        [touching] The fish touches or overlaps something; its outline is uncertain.
        [on-others] The fish lies on others; how high and how aslope is guessed, and in its error.
        [not-fish-shaped] The outline is not that of a whole fish.
        [ends-doubtful] Snout or fork is uncertain; look, then keep the fish or move
            them.
        [under-water] The fish is seen through water, which bends what is seen.
        [end-in-shadow] Snout or fork lies in a shadow, so its place is less certain.
        [coiled] The fish is bent too strongly to be measured along its middle.
        [bent] The fish is bent; it was measured along its middle.
        [tail-doubtful] It is uncertain which end is the tail.
        [far-from-markers] The fish lies far from the markers, so its scale is less
            certain.
        [published-weight] The weight is from the published line alone: standard error
            25 %.
        [outline-doubtful] The body's outline is too bent, small, odd or close to another
            fish to weigh by; it is weighed by its length, taken as fat as the photo's
            other fish where there are enough.
        [outside-species-range] The length is outside the range of the species'
            coefficients.
        [other-species] The fish is deeper or slimmer than its species; is it another
            one?
        [edited] A person moved an end point.
       *[dropped] A person left this fish out.
    }

# The same in few words: for tables and the labels of a picture.
flag-words = { $case ->
        [edge-cut] edge cut
        [hidden] hidden
        [touching] touching
        [on-others] lies on others
        [not-fish-shaped] not fish shaped
        [ends-doubtful] ends doubtful
        [under-water] under water
        [end-in-shadow] end in shadow
        [coiled] coiled
        [bent] bent
        [tail-doubtful] tail doubtful
        [far-from-markers] far from markers
        [published-weight] published weight
        [outline-doubtful] outline doubtful
        [outside-species-range] outside species range
        [other-species] other species
        [edited] edited
       *[dropped] dropped
    }

problem-words = { $case ->
        [no-marker] no printed marker seen
        [no-fish] no fish found
        [no-usable-fish] no fish can be used
        [tilted] the phone was tilted
        [marker-missing] a marker was not seen
        [not-flat] the markers do not lie flat
        [rough-scale] the scale is rough
        [blurred] blurred
        [too-far] too far
        [too-dark] too dark
        [overexposed] overexposed
        [small-fish] small fish
        [not-validated] not validated
        [other-species] other species
        [markers-disagree] markers disagree
        [several-sheets] several sheets
        [known-distance] known distance
        [through-water] through water
        [too-small] too small
        [too-large] too large
        [print-scale] print scale
       *[other] { $case }
    }

scale-method = { $case ->
        [sheet] sheet
        [loose-markers] loose markers
        [single-marker] one marker
       *[known-distance] known distance
    }

overlay-not-used = { $number } not used

overlay-length = { $case ->
        [error] { $number }: { NUMBER($length_mm, decimals: 0) }{ "\u2009" }±{ "\u2009" }{ AMOUNT($error_mm, decimals: 0) }
       *[bare] { $number }: { AMOUNT($length_mm, decimals: 0) }
    }

overlay-weight = { WEIGHT($weight_g) }

overlay-footer = { $case ->
        [refused] Not measured: { LIST($reasons) }
        [no-scale] No scale
        [used] { $used } of { $fish } fish used
       *[published] weights as { LIST($names, last: "or") }, from the published line alone ·
            standard error 25 %
    }

overlay-scale = Scale: { $method }{ $markers }

overlay-scale-error = ±{ PERCENT($share, decimals: 1) }

overlay-tilt = tilt { NUMBER($tilt, decimals: 0) }°

overlay-errors = { $case ->
        [error] lengths: standard error { AMOUNT($most_mm, decimals: 0) }
       *[errors] lengths: standard error { NUMBER($least_mm, decimals: 0) } to
            { AMOUNT($most_mm, decimals: 0) }
    }

overlay-look = Look: { LIST($reasons) }

marker-missing = Only { $markers } of the 4 markers can be seen; the others are covered, cut
    off or in glare, so the scale is less certain.
    .meaning = A marker of the sheet was not seen.

not-flat = The markers do not lie quite flat in one plane (off by
    { AMOUNT($rms_mm, decimals: 1) }).
    .advice = Smooth the sheet, and lay every card on the surface that the fish lie on.
    .meaning = The sheet does not lie flat.

overexposed = { $case ->
        [much] Overexposed: { PERCENT($share) } of it is burnt out, and white bleeds into the
            fish.
       *[parts] Overexposed: Bright parts are burnt out, and white bleeds into the fish.
    }
    .advice = Avoid flash and direct sun, wipe off standing water, tap on the white to darken
        the photo.
    .meaning = Too bright: paper or wet fish have lost their edge.

print-scale-differs = By the edges of its paper the sheet was printed at
        { PERCENT($print_scale, decimals: 1) }, which is not what was given.
    .advice = Measure the check line: a print scale of 0.97 is 97 mm of 100.
    .cli = Measure the check line and give it: --print-scale 0.97 for 97 mm of 100.
    .page = Measure the check line and give it under "How to measure".
    .meaning = The paper's edges tell another print scale than the one given.

rough-scale = The scale is known to { PERCENT($share) } only.
    .advice = Four markers, or the sheet, do much better.
    .meaning = The scale of the photo is uncertain.

image-broken = broken file: { $told }

image-parts = it has more parts than any photo

image-damaged = damaged or of an unknown kind

lens-not-json = it is not JSON

megabytes = { NUMBER($size_mb, decimals: 0) } MB

megapixels = { NUMBER($size_mp, decimals: 0) } megapixels

more-than = more than { $size }

picture-pixels = { $width_px } x { $height_px } pixels

correction-slip = { $case ->
    [no-scale] the photo has no scale to measure by
    [no-species] it names no species
    [both-ends] it needs both snout_px and fork_px
    [outside] a point lies outside the photo
   *[same-place] snout and fork are at the same place
}

correction-no-fish = there is no fish { $number }

in-water = This photo was taken through water: { $wet_count } of its { $fish_count } fish look
        like it. Water bends the light, so lengths would be about 5 % wrong; none is given.
    .advice = Say that the fish are in the tub, with the sheet or cards on its bottom; or lay
        them out of the water.
    .cli = Give --water if the sheet or cards lie on the bottom of the tub (in a sample:
        in_water = true); or lay the fish out of the water.
    .page = Go back and choose "In the tub" at this net if the sheet or cards lie on the
        tub's bottom; or lay the fish out of the water.
    .meaning = Fish are seen through water, and nothing said so.

no-water = None of the { $fish_count } fish looks as if seen through water. If they lie in the
        air, their lengths are 1 to 2 % wrong.
    .advice = Say "in the tub" only where water stands over sheet and fish.
    .cli = Leave out --water where no water stands over sheet and fish.
    .meaning = A photo was said to be taken through water and does not look it.

water-unclear = { $case ->
        [ripples] The water is too rough: it moves the markers by
            { AMOUNT($rms_mm, decimals: 1) }, and fish as much.
        [rippled] The water moves the markers by { AMOUNT($rms_mm, decimals: 1) }, so lengths
            are less certain.
        [murky] The water is too murky: the markers' black and white differ by only
            { PERCENT($share) } of the paper's brightness.
        [cloudy] The water is cloudy: the markers' black and white differ by
            { PERCENT($share) } of the paper's brightness, and pale or small fish may be
            missed.
       *[glare] Too much glare on the water: { PERCENT($share) } of the photo is burnt out.
    }
    .advice = { $case ->
        [ripples] Let the water come to rest for ten seconds and take several photos.
        [rippled] Let the water come to rest, or take several photos and name them all.
        [murky] Change the water, or wait until it has settled.
        [cloudy] Change the water, or wait until it has settled.
       *[glare] Turn the tub or yourself until the sky is no longer mirrored, or hold
            something dark over it.
    }
    .meaning = Ripples, murk or glare of the water over the fish.

water-depth-alone = is for fish in a tub alone: say that they are in the water, too

scale-division = { $net }: its fish were weighed in a tub, and nobody said in what steps the
        scale reads; { AMOUNT($division_g) } are taken.
    .advice = Give the scale's division: what it shows next after 0.
    .cli = Give scale_division_g of the net: what the scale shows next after 0.
    .meaning = A net was weighed in a tub on a scale of which the division is not known.

count-unlike-photo = { $net }: { $entered } fish were entered, and its photo shows { $seen }
        ({ $low } to { $high }).
    .advice = Count them again, or look at the photo: fish may be hidden, or another net's.
    .meaning = The count of a net and its photo do not agree.

dummy-not-seen = No fish about { AMOUNT($length_mm, decimals: 0) } long was found in the photo.
    .advice = Take the photo again with the dummy wholly in view, or give its ends.
    .cli = Take the photo again with the dummy wholly in view, or give both ends with --ends
        X1,Y1,X2,Y2 (pixels from the photo's top left).
    .meaning = The dummy of known length was not found in a photo.

count-doubted = { $photo }: { $expected } fish should be there, and the photo shows { $seen }
        ({ $low } to { $high }).
    .advice = Count again, or take another photo with the fish spread and the water at rest.
    .meaning = A count that was expected and the photo do not agree.

faint-tails = { $fish_count ->
        [one] The tail of 1 fish cannot be told from the bottom, so the fish is not used.
       *[other] The tails of { $fish_count } fish cannot be told from the bottom, so they are
            not used.
    }
    .advice = Use a light tub, or lay a light, matt plate or the sheet under the fish.
    .meaning = Fish seen from above are of the bottom's own tone; their tails are not seen.

heap = Fish lie on one another: there are at least { $least }, and { $measured } could be measured.
        How high each lies is not seen and widens its error; fish below are not counted.
    .advice = Spread the fish in one layer. Pile only fish that are killed, never live ones.
    .meaning = Fish lie on one another, and not all of them can be seen.

heap-net = Of { $net } { $measured } of { $netted } fish could be measured, as they lay on one another.
        Which are seen depends a little on size; that is allowed for, and widens the interval.
    .advice = Spread the fish in one layer next time. Pile only fish that are killed, never live ones.
    .meaning = Fish of a net lay on one another; those unseen are allowed for.

too-dark = The photo is too dark.
    .advice = Turn on a light, or go out of the shade.
    .meaning = Too dark to see fish or marker.

## pipeline and batch

batch-in-use = another run uses it

batch-not-results = it holds something else

measuring-failed = { $case ->
        [batch] The program that measured this photo broke down.
       *[server] Measuring this photo failed in a way that was not foreseen.
    }
    .advice = { $case ->
        [batch] Open the photo and save it anew, or leave it out.
       *[server] Send it once more; if that fails too, take another photo.
    }
    .meaning = The program that measured a photo of a batch broke down.

no-fish = { $case ->
        [unit] The book has no fish in { $unit } on { DAY($on) }.
       *[photo] No fish was found in this photo.
    }
    .advice = { $case ->
        [unit] Enter what was stocked: how many fish, of what mean weight, on which day.
       *[photo] Lay the fish apart from one another on a plain board beside the marker and
            take the photo from above.
    }
    .cli = { $case ->
        [unit] { no-fish.advice } To enter it: fishmeasure book add stocked
            unit={ SHELL($unit) } cohort=… fish_count=… mean_weight_g=… on=…
       *[photo] { no-fish.advice }
    }
    .meaning = No fish was found in a photo, or none are entered for a unit.

no-usable-fish = No fish was whole and clear enough to be measured; what may be one is
    marked and not used.
    .advice = Lay the fish apart, all within the photo, and take it again, or mark snout and
        fork by hand.
    .meaning = No fish was whole and clear enough.

not-validated = Measuring { $species } was not validated on photos: no real photo of them was
    tested, so the errors stated are those of drawn scenes and of other fish.
    .advice = Read a few of these fish on a ruler and compare, before you rely on the lengths.
    .meaning = The species was tested on no real photo.

small-fish = { $fish_count ->
        [one] At least 1 fish is too small in this photo to be measured. Without it the mean
            would be too high.
       *[other] At least { $fish_count } fish are too small in this photo to be measured.
            Without them the mean would be too high.
    }
    .advice = Go nearer, so that each is longer than
        { AMOUNT($smallest_mm, decimals: 0) } is now.
    .meaning = Fish are too small in the photo to be measured; their number.

## estimation: nets, lengths, agreement

some-net = a net

length-in-net = { AMOUNT($length_mm, decimals: 0) } in { $net }

net-off = { $case ->
        [above] { PERCENT($by) } above
       *[below] { PERCENT($by) } below
    }

net-reason = { $case ->
        [alone] Its weight and its lengths do not go together by any likely condition:
            check the count, the tare and the figure noted.
        [other-fish] Its fish are { $off } the others in weight: another cohort, a graded
            group, or a place where only some sizes stand. Net again elsewhere.
        [count] Its weight is { $off } what the others say of { $fish_count } fish, and
            fits { $likely_count }: the count is probably off by one. Count again or use
            the photo's count.
        [tare-forgotten] Its weight is { $off } what the others say; the
            { AMOUNT($excess_g, decimals: 0) } too much look like a tare of
            { AMOUNT($tare_g, decimals: 0) } that was not taken off.
        [tare-twice] Its weight is { $off } what the others say; the
            { AMOUNT($missing_g, decimals: 0) } missing look like a tare of
            { AMOUNT($tare_g, decimals: 0) } taken off twice.
       *[weight] Its weight is { $off } what the others say, more than chance or one fish
            more or less explains: check the tare, the scale's unit and the figure noted.
    }

fair-netting = { $case ->
        [crowd] Crowd the fish first, gently, so that all of them can be reached by the net.
        [places] Take nets from several places and depths, not one net from the near corner.
        [first] Do not let the first net alone stand for all: bold, hungry or slow fish
            lead.
        [lure] Stir no feed in to lure them: hungry fish come, the rest do not.
        [whole-dip] Weigh and count every fish of a dip; picking some out of it is a choice
            by size.
        [mesh] Use a mesh that holds the smallest fish: no interval covers a size it misses.
       *[welfare] Wet hands, short air exposure, cool water; no sampling in heat or at low
            oxygen.
    }

bulk-only = No fish was measured, so the spread of sizes is that of typical batches, not
    this one's.
    .advice = Photograph a net to see it.
    .meaning = No fish was measured: the spread is that of typical batches.

count-differs = { $case ->
        [book] On { DAY($on) } { NUMBER($counted, decimals: 0) } fish were counted where the
            book had { NUMBER($expected, decimals: 0) }.
       *[net] { CAPITAL($net) }: the photos show { $in_photos } fish but { $counted } were
            counted.
    }
    .advice = { $case ->
        [book] Look for fish that died or left unseen, or a wrong entry.
       *[net] Correct the one that is wrong.
    }
    .meaning = Fish as counted differ from those in a net's photos, or from the book's.

count-in-unit-too-small = { $netted } fish were netted but the unit is said to hold
    { $count_in_unit }.
    .advice = Correct the count of the unit; a count that is too small by more than its
        error is not used.
    .meaning = More fish were netted than are said to be in the unit.

doubtful-lengths = These lengths are more likely wrong than real and count little:
    { LIST($places) }.
    .advice = Look at the outlines.
    .meaning = Some lengths are probably wrong; they count for little.

far-from-published = { $case ->
        [net] At its lengths a net weighs { NUMBER($least, digits: 2) } times what is
            published, which no stock does.
        [nets] At its lengths a net weighs { NUMBER($least, digits: 2) } to
            { NUMBER($most, digits: 2) } times what is published, which no stock does.
       *[heavy] At these lengths the fish weigh { NUMBER($times, digits: 2) } times what is
            published.
    }
    .advice = Check the scale's unit, tare, counts, print scale and species{ $case ->
        [net] ; do not use these figures.
        [nets] ; do not use these figures.
        [light] . If all is right, these fish are unusually light for their length.
       *[heavy] . If all is right, these fish are unusually heavy for their length.
    }
    .meaning = Weights are far from those published, or no fish's.

net-disagrees = { CAPITAL($net) }: { $reason }
    .meaning = A net does not agree with the others; the reason is given.

likely-slip = { $net }: { NUMBER($fish, decimals: 0) } fish of together
    { AMOUNT($weight_g) } are far from the { AMOUNT($others_g) } a fish of the other nets.
    .advice = { $slip ->
        [count-tenfold] Were it { NUMBER($right_fish, decimals: 0) } fish, it would fit.
            Correct the count, or weigh the net again.
        [count-tenth] Were it { NUMBER($right_fish, decimals: 0) } fish, it would fit.
            Correct the count, or weigh the net again.
        [tare-forgotten] Less the empty net it would be { AMOUNT($right_weight_g) } and fit.
            Enter the tare, or weigh the net again.
        [gross] Were the reading of { AMOUNT($gross_g) } with the net
            { AMOUNT($right_gross_g) }, it would fit. Look at the unit and the digits as
            read, or weigh the net again.
       *[weight] Were it { AMOUNT($right_weight_g) }, it would fit. Look at the unit and the
            digits as read, or weigh the net again.
    }
    .meaning = A net lies where a usual slip would put it: ten times, another unit, no tare.

net-unused = { CAPITAL($net) } has no weight and no fish whose length can be used, so it
    tells nothing.
    .meaning = A net gives nothing: neither weighed nor measured.

one-net = One net cannot show how nets differ; that part of the error is typical, not
    measured.
    .advice = Take another from another place.
    .meaning = One net says little about the rest of the unit.

outside-species-range = { $case ->
        [lengths] { $outside } of { $measured } fish are outside the
            { NUMBER($least_mm, decimals: 0) }-{ AMOUNT($most_mm, decimals: 0) } for which the
            species' coefficients hold.
       *[mean] The mean of { AMOUNT($mean_g, digits: 3) } is outside the
            { NUMBER($least_g, decimals: 0) } to { AMOUNT($most_g, decimals: 0) } for which the
            species' coefficients hold.
    }
    .advice = { $case ->
        [lengths] {""}
       *[mean] Check the scale's unit, the tare and the counts.
    }
    .meaning = Fish are outside the range of the length-weight line.

photo-only = { $case ->
        [outlines] No net was weighed, so the weights stand on the outlines of the fish:
            standard error { PERCENT($relative_sd) } for the thickness of the stock, and
            nothing known of ripe fish, full guts or swollen bellies.
        [own-line] No net was weighed, so the weights stand on this length-weight line
            alone: standard error { PERCENT($relative_sd) }.
       *[published] No net was weighed, so the weights stand on a published length-weight
            line alone: standard error { PERCENT($relative_sd) }.
    }
    .advice = Weigh one counted net of the same fish to settle the level.
    .meaning = No net was weighed: the level is that of outlines or of a length-weight line.

photos-exchanged = Beside the lengths in their photos { $net } is { $case ->
        [heavy] too heavy by { PERCENT($net_off) } and { $other } too light by
            { PERCENT($other_off) }
       *[light] too light by { PERCENT($net_off) } and { $other } too heavy by
            { PERCENT($other_off) }
    }; with the two photos exchanged both fit.
    .advice = Likely the photos were given to the wrong nets: exchange them, or look which
        fish each photo shows.
    .meaning = The photos of two nets seem to be exchanged.

ripe-fish = These fish are ripe or spawning. Roe and milt make up to a fifth of their weight,
    and no outline tells them from flesh: weights by photo are that much less sure, and
    nothing of them is carried to other photos.
    .advice = Weigh the nets, and photograph and weigh five fish again after spawning.
    .meaning = The fish are ripe or spawning, so outlines tell their weights less surely.

repeat-photos = { CAPITAL($net) }: its photos show more fish together than were counted, so
    they show the same ones. The photo with most fish measured was used.
    .meaning = The same fish seem to be in two photos of a net.

repeats-differ = { CAPITAL($net) }: the repeated weighings are
    { AMOUNT($apart_g, decimals: 0) } apart, more than this scale explains.
    .advice = Weigh it once more.
    .meaning = Repeated weighings of a net differ more than the scale's error.

same-fish = The { $fish } fish in the photo of { $net } are as long, one by one, as those of
    { $other }: they differ by { PERCENT($apart, decimals: 1) } in the median, as the same
    fish do and those of two nets hardly ever.
    .advice = Likely one net was photographed twice. Give each net its own photo, or leave
        the second one out.
    .meaning = The photos of two nets seem to show the same fish.

two-size-groups = There are two groups of sizes: about { PERCENT($share) } near
    { AMOUNT($small_g, decimals: 0) } and the rest near { AMOUNT($large_g, decimals: 0) }.
    .advice = One mean describes neither; consider grading.
    .meaning = The sample shows two groups of sizes.

## book: what is in a unit

water-system = { $case ->
        [flow-through] new water that flows through
        [pond] a pond
        [closed-loop] a closed loop with a biofilter
       *[bed-loop] a closed loop with a plant bed
    }

note-water-system = { $case ->
        [stated] Water of { $unit }: { $system }, as entered.
       *[taken] Water of { $unit } is taken as { $system }, from inflow, recirculation and bed
            as entered; water_system states it.
    }

note-cohort-growth = Growth of { $name }: { $samples } samples, { $periods } periods of
    feeding, published TGC.

count-from = { $case ->
        [counted] counted on { DAY($on) }, and what was entered since
       *[stocked] stocked less what died, was taken or moved; never counted since
    }

weight-from = { $case ->
        [none] no weight has been entered
        [sampled] sample of { DAY($on) }, together with those before it
        [grown] samples up to { DAY($on) }, grown since
       *[stocked] weight at stocking, grown since
    }

temperature-held = Growth and feed ahead take the water in { $unit } as it was last read,
    { AMOUNT($temperature_deg_c, atMost: 3) } on { DAY($on) }, for the whole year, give or
    take { AMOUNT($sd_deg_c) }.
    .advice = Enter the unit's temperature for each month, or one figure for a spring that
        is about constant.
    .meaning = Without a year's temperatures the last reading is held.

more-out-than-in = The book has { NUMBER($more, decimals: 0) } more fish going out than came
    in.
    .advice = An entry is missing or has the wrong cohort; count the fish.
    .meaning = More of a cohort's fish left a unit than came into it.

doubt-weight = { $case ->
        [falling] The fish weigh { AMOUNT($entered_g, digits: 3) } each; they weighed
            { AMOUNT($before_g, digits: 3) } on { DAY($on) }, and
            { AMOUNT($expected_g, digits: 3) } are expected.
        [size] These would be fish of { AMOUNT($entered_g, digits: 3) } each.
        [each] That is { AMOUNT($entered_g, digits: 3) } a fish, where
            { AMOUNT($expected_g, digits: 3) } are expected.
       *[sample] The fish weigh { AMOUNT($entered_g, digits: 3) } each, where
            { AMOUNT($expected_g, digits: 3) } are expected.
    }
    .meaning = Asked before it is stored: a mean weight is far from what is expected.

doubt-count = { $case ->
        [gone] { NUMBER($entered_fish, decimals: 0) } fish are to leave { $unit }, where
            there are { NUMBER($expected_fish, decimals: 0) } by the book.
        [dead] { NUMBER($entered_fish, decimals: 0) } dead fish are far more than usual in
            { $unit }.
        [stated] The sample was worked out for { NUMBER($entered_fish, decimals: 0) } fish in
            { $unit }, where there are { NUMBER($expected_fish, decimals: 0) } by the book.
       *[counted] { NUMBER($entered_fish, decimals: 0) } fish were counted in { $unit }, where
            there are { NUMBER($expected_fish, decimals: 0) } by the book.
    }
    .meaning = Asked before it is stored: a number of fish is far from what is expected.

doubt-kilograms = { $case ->
        [gone] { AMOUNT($entered_kg) } are to leave { $unit }, where there are
            { AMOUNT($expected_kg) } by the book.
       *[stocked] { AMOUNT($entered_kg) } do not fit the number and the size of the fish,
            which make { AMOUNT($expected_kg) }.
    }
    .meaning = Asked before it is stored: kilograms are far from what is expected.

doubt-density = { $unit } would hold { AMOUNT($entered_kg_per_m3, decimals: 0) }, more than any
    tank is stocked.
    .meaning = Asked before it is stored: more fish than a unit of that size holds.

doubt-fcr = The fish would have put on a kilogram for { NUMBER($entered_ratio, digits: 2) } kg
    of feed, which cannot be.
    .meaning = Asked before it is stored: a feed conversion that no feed gives.

doubt-condition = At their lengths the fish have a condition factor of
    { NUMBER($entered_ratio, digits: 3) }, where { NUMBER($expected_ratio, digits: 3) } is
    expected after the last sample.
    .meaning = Asked before it is stored: weight and length do not fit the last sample's.

doubt-temperature = The water is said to have { AMOUNT($entered_deg_c, decimals: 1) }, where
    { AMOUNT($expected_deg_c, decimals: 1) } are expected.
    .meaning = Asked before it is stored: a water temperature far from what is expected.

doubt-feed = { AMOUNT($entered_kg) } of feed are far from the { AMOUNT($expected_kg) } that
    are expected.
    .meaning = Asked before it is stored: far more or less feed than usual.

doubt-no-fish = { $case ->
        [later] By the book there are no fish of { $cohort } in { $unit } before
            { DAY($first_on) }.
       *[never] By the book there are no fish of { $cohort } in { $unit } on { DAY($on) }.
    }
    .meaning = Asked before it is stored: fish are entered where the book has none.

doubt-twice = The same is in the book already, on { DAY($on) }.
    .meaning = Asked before it is stored: the same figures are there already.

doubt-photo-twice = { $photos ->
        [one] A photo of this sample is in the one of { DAY($on) }, too.
       *[other] { $photos } photos of this sample are in the one of { DAY($on) }, too.
    }
    .meaning = Asked before it is stored: the same photo in two samples.

doubt-long-ago = { DAY($on) } is long before the { DAY($last_on) } of what was entered last.
    .meaning = Asked before it is stored: a day long ago.

slip-fish = Were it { NUMBER($right_fish, decimals: 0) } fish, it would fit.

slip-grams = { $case ->
        [grams] Were it { AMOUNT($right_g) } a fish, it would fit (grams for kilograms).
        [kilograms] Were it { AMOUNT($right_g) } a fish, it would fit (kilograms for grams).
        [pounds] Were it { AMOUNT($right_g) } a fish, it would fit (pounds and kilograms).
       *[none] Were it { AMOUNT($right_g) } a fish, it would fit.
    }

slip-kilograms = { $case ->
        [grams] Were it { AMOUNT($right_kg) }, it would fit (grams for kilograms).
        [kilograms] Were it { AMOUNT($right_kg) }, it would fit (kilograms for grams).
        [pounds] Were it { AMOUNT($right_kg) }, it would fit (pounds and kilograms).
       *[none] Were it { AMOUNT($right_kg) }, it would fit.
    }

slip-temperature = { $case ->
        [fahrenheit] Read in degrees Fahrenheit it is { AMOUNT($right_deg_c, decimals: 1) },
            which would fit.
       *[tenfold] Were it { AMOUNT($right_deg_c, decimals: 1) }, it would fit.
    }

slip-tare = It would fit if the net or the bucket was weighed with the fish: take it off.

slip-print-scale = It would fit if the sheet was printed at another scale: measure its check
    line.

slip-place = It would fit { $cohort } in { $unit }.

slip-day = It would fit { DAY($right_on) }.

no-growth-figures = There are no growth figures for { $species }: the mean weight stands
    still between samples.
    .meaning = The species has no growth figures, so the book grows no fish of it.

feed-off-track = From { DAY($since_on) } to { DAY($until_on) }
    { AMOUNT($feed_kg, decimals: 1) } of feed are entered, the most on { DAY($most_on) }; all
    else says that the fish ate { AMOUNT($expected_kg, decimals: 0) }. This feed was left out.
    .advice = Correct the feed entry that is wrong, or take a sample and count the fish.
    .meaning = Feed is far from what the fish can have eaten, and was left out.

sample-off-track = The sample of { DAY($on) } ({ AMOUNT($mean_g, decimals: 0) }) is far from
    the { AMOUNT($expected_g, decimals: 0) } that all else says.
    .advice = Check the weighing, the feed and the temperature; take another sample.
    .meaning = A sample's mean weight is far from what the book foretold.

weight-implausible = { $case ->
        [stocked] { $fish_count } fish of { AMOUNT($weight_g) } are not
            { AMOUNT($bulk_weight_kg) }; the kilograms were left out.
       *[taken] Fish of { AMOUNT($weight_g, decimals: 0) } taken from a mean of
            { AMOUNT($mean_g, decimals: 0) } do not fit; the mean was left as it was.
    }
    .advice = { $case ->
        [stocked] Correct the entry of { DAY($on) }.
       *[taken] Take a sample.
    }
    .meaning = A weight that was entered does not fit the other figures of the fish.

weight-unknown = { AMOUNT($weight_kg) } were taken on { DAY($on) } while no mean weight was
    known, so their number is unknown.
    .advice = Correct the entry with a count, or count the fish.
    .meaning = Fish were taken by weight while their mean weight was unknown.

## store

store-demo = The spring tanks: invented data to try things on. No such tanks, fish or people
    exist.

store-demo-note = { $case ->
    [bought] Bought by weight. Invented.
    [slip] Ten times too much, a typing error.
   *[smallest] The smallest went to { $unit }.
}

store-no-address = it is no address of a database

store-other-database = { $driver } is neither sqlite nor postgresql

store-no-driver = { $driver } is missing; install fishmeasure[postgres]

store-part-lost = a part of it cannot be read

store-emptied = it is empty, but its log is not

backup-content = { $case ->
    [more-than-files] it holds more than files
    [strange-name] it holds a strange name
    [end-missing] its end is missing
    [no-book] the book is not in it
    [book-damaged] the book in it is damaged
    [book-strange] the book in it holds more than tables
   *[book-unread] the book in it cannot be read
}

backup-unread = { $case ->
    [told] it cannot be read ({ $told })
   *[bare] it cannot be read
}

backup-file-changed = { $file } is not what was saved

backup-format = it does not say that it is a { $format } of version { $version }

import-where = { $case ->
    [tables] The tables
    [document] The document
   *[file] The file
}

import-no-json = it is no JSON ({ $told })

import-format = it does not say that it is a { $format }

import-version = it has version { $version }, not { $known_version }

import-remarks = remarks is not an object of texts

import-no-list = { $name } is not a list of objects

import-tables = the tables are { LIST($tables) }

import-line = { $name }.csv, line { $line }

table-column = is no column of a table of nets{ $case ->
        [near] ; is { $near } meant?
       *[far] ; such are fish, gross_g, tare_g, photos, label
    }

table-twice = stands in the heading twice

table-two = is { $first } in one row and { $second } in line { $line }; a sample has one

table-unclear = { QUOTED($given) } can be read in two ways; write { $whole } or { $decimal }

table-day = { QUOTED($given) } is no day; write 2026-05-02

import-cells = it has more cells than the heading

import-no-csv = it is no CSV ({ $told })

import-field = { $field } { $reason }

import-row = { $place }: { $field } { $reason }

field-no-number = is { QUOTED($given) }; write numbers as 12.5

field-of-no-kind = is no field of this{ $case ->
        [near] ; is { $near } meant?
       *[far] {""}
    }

## face: Python

## cli

cli-ration = Ration today: { NUMBER($percent) } % of body weight

cli-feed-today = Feed today: { AMOUNT($feed_kg) }

cli-feed-ahead = Feed in { $days } days: { AMOUNT($feed_kg) }

cli-conversion = { $case ->
    [biological] Biological feed conversion: { NUMBER($ratio) }
   *[economic] Economic feed conversion: { NUMBER($ratio) }
}

cli-gain = Gain: { AMOUNT($gain_kg) }

cli-day = { $case ->
    [after] after { DAY($on) }
    [now] now, { DAY($on) }
    [or-later] { DAY($on) } ({ DAY($first_on) } to later)
   *[from-to] { DAY($on) } ({ DAY($first_on) } to { DAY($last_on) })
}

cli-weight-on = { DAY($on) }: { AMOUNT($weight_g) }

cli-growth-coefficient = Thermal growth coefficient x 1000: { NUMBER($tgc_x1000) }

cli-mean-weight = Mean weight on { DAY($on) }: { AMOUNT($weight_g) }

cli-at-size = At { AMOUNT($size_g) }: first (5 %) { $first }

cli-at-size-half = half { $half }

cli-at-size-all = nearly all (95 %) { $nearly_all }

cli-growth-rate = Specific growth rate, first to last sample: { NUMBER($rate) } %/day

cli-unionised-share = Un-ionised share: { PERCENT($share, decimals: 2) }

cli-unionised = Un-ionised ammonia nitrogen: up to
    { AMOUNT($unionised_n_mg_per_l, digits: 2, end: "high") }

cli-unionised-limit = Of the limit of { AMOUNT($limit_n_mg_per_l) }: up to
    { NUMBER($percent, digits: 2, end: "high") } %

cli-feed-nitrogen = The feed makes { AMOUNT($made_g) } nitrogen a day

cli-plants-take = The plants take up { AMOUNT($uptake_g) } a day

cli-nitrate = Nitrate nitrogen in { $days } days: up to { NUMBER($high_mg_per_l, digits: 3) }
    (likely { NUMBER($likely_mg_per_l, digits: 3) }) { unit-mg-per-l }

cli-nitrate-limit = { $case ->
    [passed] The limit of { AMOUNT($limit_mg_per_l) } may be passed in { $days } days
   *[never] The limit of { AMOUNT($limit_mg_per_l) } is not reached in that time
}

cli-bed-needed = { AMOUNT($feed_g) } of feed a day carries { AMOUNT($bed_m2) }

cli-bed-carries = { AMOUNT($bed_m2) } takes up { AMOUNT($feed_kg) } of feed a day

cli-room-ahead = For the next { $days } days there is room for { $fish } fingerlings of
    { AMOUNT($weight_g) }

cli-over-ahead = { $case ->
    [now] A limit may be passed now; take out { $fish } fish, so that none is in the next
        { $days } days
   *[later] A limit may be passed in { $over_days } days; take out { $fish } fish, so that
        none is in the next { $days } days
}

cli-density = Density: up to { AMOUNT($density_kg_per_m3, end: "high") }

cli-limit = { $name }: { $used } used; by it alone at least
    { AMOUNT($capacity_kg, end: "low") }

cli-limiting = { $case ->
    [over] Limited first by { $name }; { AMOUNT($room_kg, digits: 3) } too much at the unsafe
        end
   *[room] Limited first by { $name }; room for { AMOUNT($room_kg, digits: 3) } more
}

cli-lens = { $file }: { $photos } photos of { $case ->
        [named] { $camera }
       *[unnamed] an unnamed camera
    }, focal length { AMOUNT($focal_mm, decimals: 1) } (35 mm equivalent), distortion k1
    { $k1 }, fits to { NUMBER($rms_px, decimals: 2) } pixels

cli-warning = Warning: { $told }

cli-the-file = File

cli-the-output = the output

cli-no-file = it is no file

cli-beside = beside { $other }

cli-without = without { $other }

cli-more-than-one = more than one

cli-wanted = { $case ->
    [photos] a folder or list with photos
    [cluster] possible without 'pip install fishmeasure[cluster]'
    [scheduler] the address of a running dask scheduler
    [writable] one that can be written ({ $reason })
    [readable] one that can be read ({ $reason })
    [text] one that can be read (it is not text)
    [ends] like 120,80,940,85
    [two-on-screen] possible beside --json -: name a file
    [table] a CSV, or --instructions FILE
    [picture] a file in .png, .svg or .pdf
    [both-minutes] possible beside the other: --net-minutes and --fish-minutes go together
    [strata] like 50/30/20, shares in per cent that make 100, or 50:180/50:220 with mean
        weights in g
    [record] possible without a date and a unit in the file
    [settings] settings as this program writes them ({ $reason })
    [sample-file] the name of a sample file, which ends in .toml
    [new-file] a new file: it is there already
    [own-photo] free: it is of another net
    [one-of-two] possible: give one of them
    [network] possible: this machine is on no network
    [pair] a pair of files
    [there] there
    [certificate] a certificate with its key in { $key }, both PEM, without a password
    [own-port] a port that this user may open; take one from 1024 on
    [free-port] free: another program, or this one, serves there already
   *[folder] a folder to write to ({ $reason })
}

cli-example = { $case ->
    [kind] unit or cohort
    [such-as] such as { $example }
    [not-before] { $example }, no day before the last sample
    [take] --take 2026-08-01=60 or --weekly size --until 2026-10-31
    [weekly] 60 (fish), 20kg, or size
    [from-on] a day from { $first_on } on
    [temp-alone] --temp 11 alone
   *[temp] --temp 11, --monthly or --wave
}

usage-takes = { $case ->
    [number] it takes a number
    [whole] it takes a whole number
    [most] it takes { $limit } at most
    [range] it takes { $low } to { $high }
   *[least] it takes { $limit } at least
}

usage-no-option = '{ $command }' has no option { $option }

usage-needs = '{ $command }' needs { $parameter }

usage-needs-value = '{ $command }' needs a value after { $parameter }

usage-no-value = { $option } takes no value

usage-value = { $parameter }: { $reason }

usage-extra = '{ $command }' does not take '{ $argument }'

usage-named = { $name } ({ $meaning })

cli-not-text = it is not text

cli-not-utf-8 = it is not text in UTF-8

cli-not-kept = { $photo } cannot be kept in { $folder } ({ $reason })

cli-weights = { $case ->
    [stock] ± is one standard error. Weights are by this stock's own figures.
    [outline] ± is one standard error. Weights are those of { $species } by the depth of each
        body beside its length, with a standard error of about 15 %. Spawners, full guts and
        swollen bellies weigh otherwise than an outline says: weigh a net of these fish and
        use 'fishmeasure sample', or five of them singly and use 'fishmeasure fit'.
   *[line] ± is one standard error. Weights are those of { $species } from its published line
        alone, with a standard error of 25 %: weigh a net of these fish and use
        'fishmeasure sample', or five of them singly and use 'fishmeasure fit'.
}

cli-batch-damaged = { $lines ->
    [one] 1 line of { $file } was cut off or damaged; its photo is measured again.
   *[other] { $lines } lines of { $file } were cut off or damaged; their photos are measured
        again.
}

cli-batch-done = { $photos } photos, { $unusable } of them without figures; each one's
    reason is in { $file }.

cli-table-unread = { $name } cannot be read ({ $reason })

cli-table-no-csv = { $name } is no CSV ({ $told })

cli-table-column = { $name } has no column { $column }

cli-table-cell = fish { $number } has "{ $given }" for { $name }

cli-row-no-photo = row { $row } names no photo

fit-row-problems = row { $row }: { $photo }: { $told }

cli-row-which-fish = row { $row }: { $photo } shows { $fish } fish that can be used, so a
    column fish must say which; 'fishmeasure photo --overlay' numbers them

fit-row-other-fish = row { $row } names fish "{ $given }", but { $photo } has fish 1 to
    { $fish }

fit-row-unmeasured = row { $row }: fish { $number } of { $photo } cannot be measured

cli-stock-saved = Saved { $file }: use it as --species { $file }.

cli-length-kind = { $length_kind ->
    [total] total length
    [standard] standard length
   *[fork] fork length
}

cli-fit-instructions = Wrote { $file }: print it at any size.

cli-fit-line = W = { $a } L^{ NUMBER($b, decimals: 4) } (g, cm { cli-length-kind }),
    { $fish_count } fish of
    { NUMBER($least_mm, decimals: 0) }-{ AMOUNT($most_mm, decimals: 0) }

cli-fit-b = b ± { NUMBER($b_se, decimals: 3) } (standard error),
    R2 { NUMBER($r_squared, decimals: 4) }

cli-fit-scatter = Single fish scatter by { PERCENT($share, decimals: 1) } about it; the mean
    weight at a length is { NUMBER($factor, decimals: 4) } times the line (smearing:
    { NUMBER($smearing, decimals: 4) }).

cli-fit-left-out = A fish left out of the fit is predicted to
    { PERCENT($share, decimals: 1) } on average.

cli-fit-outlier = Fish { $number } is far off the line: look at its figures again.

fit-left = A fish of { $photo } is left out: its outline is doubtful.

cli-body = W = { NUMBER($factor, decimals: 3) } V (g, cm3; V is squared depth along the
    body), ± { PERCENT($share, decimals: 1) } by { $fish } fish in { $photos ->
        [one] 1 photo
       *[other] { $photos } photos
    }

cli-heights = Snout { NUMBER($snout, decimals: 2) } and fork { NUMBER($fork, decimals: 2) } of
    half the thickness over the board (± { NUMBER($snout_sd, decimals: 2) } and
    { NUMBER($fork_sd, decimals: 2) } from photo to photo), by { $fish } fish in { $photos ->
        [one] 1 photo
       *[other] { $photos } photos
    }; { NUMBER($usual_snout, decimals: 2) } and { NUMBER($usual_fork, decimals: 2) } were
    assumed.

cli-heights-told = The ruler alone says { NUMBER($stiffness, decimals: 1) } ±
    { NUMBER($stiffness_se, decimals: 1) } on a scale where limp fish are -2 and stiff ones 2.

cli-heights-hold = They hold for fish laid as these were, as long after death; measure a few by
    ruler again when that changes.

cli-body-left-out = A fish left out of the fit is told by the others to
    { PERCENT($share, decimals: 1) } on average, by length alone to
    { PERCENT($by_length, decimals: 1) }.

fit-one-photo = All are in one photo, whose light and edges they share: fish of two or
    more photos would make it surer.

fit-outlier = Fish { $number } is far off the others: look at its weight again.

fit-holds = It holds for fish in the state of these: not for ripe ones, after heavy
    feeding, or with a swollen belly, which no outline can tell from fat.

fit-ripe = These fish are ripe or spawning: what they weigh is kept, but no other photo is
    weighed by it. Photograph and weigh five fish when spawning is over.

fit-heights = Snout and fork of these fish lie at { NUMBER($snout, decimals: 2) } and
    { NUMBER($fork, decimals: 2) } of half the thickness, where
    { NUMBER($usual_snout, decimals: 2) } and { NUMBER($usual_fork, decimals: 2) } were taken.

fit-row-twice = row { $row }: fish { $number } of { $photo } stands there twice

fit-row-nothing = row { $row }: fish { $number } of { $photo } has neither a weight nor a
    length

cli-import-nothing = it has no { $table }.csv or the like

cli-exported = { $entries } entries written to { $file }

cli-imported = { $entries } entries added, { $repeated } were there.

cli-no-book-yet = there is no book at { $where } yet.

cli-saved-in = are saved in { $where }

cli-back-in = { $case ->
    [apart] are back in { $where }, the book at { $book }
   *[together] are back in { $where }
}

cli-backup = The book and { $photos } photos ({ NUMBER($size_mb, decimals: 1) } MB, all
    checked) { $what }.

cli-backup-missing = { $photos ->
    [one] 1 photo of the book has no file: { $first }.
   *[other] { $photos } photos of the book have no file, the first is { $first }.
}

cli-sample-entered = Entered in the book, entry { $entry }.

cli-sample-joined = With all else that the book knows of { $cohort }, the mean weight on { DAY($on) }
    is { AMOUNT($mean_g, digits: 3) }.

cli-sample-netted = Of { $cohort } the fish weighed and counted when stocked or harvested say
    that its samples weigh { PERCENT($by, decimals: 1) } { $case ->
        [heavier] more
       *[lighter] less
    } than all its fish (drip and which fish are netted; { PERCENT($low, decimals: 1) } to
    { PERCENT($high, decimals: 1) }). The answer above does not take that off; the book does:
    { AMOUNT($less_g, decimals: 1) } for { AMOUNT($mean_g, decimals: 1) }.

cli-sample-there = Already in the book: the sample of { DAY($on) }, entry { $entry }.

cli-figure = { $case ->
        [g] { AMOUNT($value_g, decimals: 0) } ({ NUMBER($low_g, decimals: 0) } to
            { NUMBER($high_g, decimals: 0) })
        [kg] { AMOUNT($value_kg, decimals: 1) } ({ NUMBER($low_kg, decimals: 1) } to
            { NUMBER($high_kg, decimals: 1) })
        [mm] { AMOUNT($value_mm, decimals: 0) } ({ NUMBER($low_mm, decimals: 0) } to
            { NUMBER($high_mm, decimals: 0) })
        [cell-mm] { NUMBER($value_mm, decimals: 1) }
        [cell-g] { NUMBER($value_g, decimals: 0, bare: 1) }
        [cell-g-span] { NUMBER($span_g, bare: 1) }
        [cell-kg-span] { NUMBER($span_kg) }
        [cell-day] { DAY($on) }
        [cell-m3] { NUMBER($value_m3) }
        [cell-m2] { NUMBER($value_m2) }
        [cell-l-per-min] { NUMBER($value_l_per_min) }
        [middle] { NUMBER($low_g, decimals: 0) } to { AMOUNT($high_g, decimals: 0) }
        [taken-off] { PERCENT($share, decimals: 1) }: { AMOUNT($off_g, decimals: 0) }
        [fish] { NUMBER($fish, decimals: 0, all: 1) }
       *[bare] { NUMBER($figure, decimals: 2, all: 1) }
    }

cli-columns = { $case ->
        [photo] fish | fork { unit-mm } | ± { unit-mm } | total { unit-mm } | depth { unit-mm } | weight { unit-g } | doubts
        [plan] fish a net | nets | fish in all | expected ± %
        [species] species | a | b | K | range mm | level | of fish | confidence
        [units] unit | kind | { unit-m3 } | inflow { unit-l-per-min } | bed { unit-m2 } | version
        [cohorts] cohort | species | origin | version
        [entries] date | entry | unit | cohort | what | id
        [state] unit | cohort | fish | mean weight { unit-g } | { unit-kg } | last sample
       *[nets] net | fish | measured | weight { unit-g } | against the rest | doubt
    }

cli-check = { $case ->
        [within] { AMOUNT($known_mm, decimals: 1) } read { AMOUNT($read_mm, decimals: 1) },
            { PERCENT($off, decimals: 1) } too { $way ->
                [long] long
               *[short] short
            }. A photo like this may be off by { PERCENT($may, decimals: 1) }, so camera, sheet
            and place are right.
        [water] { AMOUNT($known_mm, decimals: 1) } read { AMOUNT($read_mm, decimals: 1) },
            { PERCENT($off, decimals: 1) } too { $way ->
                [long] long
               *[short] short
            }, and a photo like this should be off by { PERCENT($may, decimals: 1) } at most.
            Check the dummy's height over the sheet, the print (its check line), that the sheet
            lies flat, and that the water is at rest; then take another photo.
       *[air] { AMOUNT($known_mm, decimals: 1) } read { AMOUNT($read_mm, decimals: 1) },
            { PERCENT($off, decimals: 1) } too { $way ->
                [long] long
               *[short] short
            }, and a photo like this should be off by { PERCENT($may, decimals: 1) } at most.
            Check the dummy's height over the sheet, the print (its check line), and that the
            sheet lies flat; then take another photo.
    }

cli-count = { $photo }: { $seen ->
        [one] 1 fish ({ $low } to { $high })
       *[other] { $seen } fish ({ $low } to { $high })
    }

cli-it-says = It says: { $told }

cli-what-to-do = What to do: { $told }

cli-measuring = Measuring

cli-field-day = on: date, such as 2026-05-02; else today

cli-field-name = name of the { record-word }

device-name = { $case ->
    [aerator] aerator
    [air-pump] air pump
   *[backup-air] backup air
}

cli-not-used = not used

cli-photo-scale = { $method }, { NUMBER($px, decimals: 2) } px/mm, tilt
    { NUMBER($tilt, decimals: 0) }°, scale ± { PERCENT($scale_sd, decimals: 1) }

cli-photo-weight = mean weight { AMOUNT($value_g, decimals: 0) } ({ NUMBER($low_g, decimals: 0) }
    to { NUMBER($high_g, decimals: 0) }), condition factor
    { NUMBER($condition, decimals: 2) } ({ NUMBER($least_condition, decimals: 2) } to
    { NUMBER($most_condition, decimals: 2) })

cli-sample-title = { $where }, { PERCENT($level) } intervals

cli-sample-unnamed = Sample

cli-sample-row = { $case ->
        [mean] mean weight in the unit
        [netted] of the netted fish
        [drip] drip water taken off the nets
        [doubt] taken off their mean, as a net may be wrong
        [netting] taken off the mean, as netted fish are heavier
        [spread] spread (CV)
        [middle] middle 80 % of the fish
        [length] mean fork length
        [condition] condition factor K
        [level] weight over published
       *[biomass] biomass
    }

cli-sample-fish = { $case ->
        [photos] { $measured } fish measured ({ $seen } seen in { $photos } photos),
            { $weighed } weighed.
       *[weighed] { $measured } fish measured, { $weighed } weighed.
    }

cli-plan-title = Mean weight within { NUMBER($within) } %, { PERCENT($level) } interval

cli-plan-typical = typical figures

cli-sample-more = The mean is known to ± { PERCENT($now, decimals: 1) }; one more net of
    { $fish_count } fish would make it ± { PERCENT($then, decimals: 1) }.

cli-plan-from = From { $origin }: fish of a net differ by a CV of { PERCENT($within_cv) },
    nets beyond that by { PERCENT($between_cv) }. An expectation, not a promise.

cli-sample-worth = { $verdict ->
    [enough] Within ± { PERCENT($aim) } no other is needed.
    [worth-it] That is worth it: about { $nets } more bring ± { PERCENT($aim) }.
   *[other] More nets hardly bring ± { PERCENT($aim) }: weigh a counted part of the unit.
}

cli-plan-time = A net takes { NUMBER($net_minutes) } min and a fish
    { NUMBER($fish_minutes) } min: nets of { $fish } fish tell most for the time,
    { $nets } of them take about { NUMBER($all_minutes, decimals: 0) } min.

cli-plan-strata = Of the parts of the unit take { LIST($nets, between: " + ") } nets of { $fish } fish, in the
    order given: ± { PERCENT($half_width, decimals: 1) } for all. Make a sample of each part and
    add their mean weights, each times its share: one sample of all nets takes every net for
    as many fish.

cli-plan-pilot = { $nets } nets tell that roughly, so the plan allows for more: four of five
    such plans keep the ± % shown.

cli-plan-more = That sample gave ± { PERCENT($now, decimals: 1) }; one more net of
    { $fish_count } fish would give about ± { PERCENT($then, decimals: 1) }.

cli-weigh-new = { $file } is new. An empty answer takes what is in brackets, or nothing.

cli-weigh-ask = { $case ->
    [date] Day of the sample
    [unit] Unit (tank, pond, cage)
    [species] Fish ('fishmeasure species' lists them)
    [count] Fish in the unit, if known
    [scale] Step of the scale's display, in g
    [wet-tare] Is the empty net weighed wet and drained?
    [fish] Net { $number }: fish in it (empty: no more nets; -: take the last net back)
    [gross] Net { $number } with its fish, in { $unit } (1912; 1908: weighed twice; empty: not weighed)
    [tare] The net alone, in { $unit }
    [photos] Photo of these fish (a.jpg; b.jpg: two; empty: none)
    [label] Where it was dipped, or another name
    [right] Is it right as it is?
   *[now] Work the sample out now?
}

cli-weigh-net = { $net }: { $fish_count } fish, { AMOUNT($weight_g, decimals: 0) }, { AMOUNT($mean_g, digits: 3) } a fish.

cli-weigh-so-far = By weighing alone the mean is { $mean }.

cli-weigh-no-back = Nothing was asked for before; a net of an older file is taken out by hand.

cli-weigh-later = All is in { $file }: fishmeasure sample { SHELL($file) }

cli-weigh-taken = { $nets ->
    [one] One net is
   *[other] { $nets } nets are
} now in { $file }: fishmeasure sample { SHELL($file) }

cli-the-setting = The setting

cli-the-photo = The photo

cli-print-scale-kept = Print scale { NUMBER($print_scale) }, as kept by 'fishmeasure settings'.

farm-title = The farm on { DAY($on) }

farm-columns = unit | fish | mean weight | biomass | feed today | half at plate size | fullest limit

farm-cell = { $case ->
    [fish] { NUMBER($fish_count, decimals: 0) }
    [weight] { AMOUNT($mean_g) }
    [biomass] { AMOUNT($biomass_kg) }
    [feed] { AMOUNT($ration_kg, digits: 2) }
    [limit] { $limit } { PERCENT($used) }
   *[day] { DAY($on) }
}

farm-sum = In { $units } units: { NUMBER($fish_count, decimals: 0) } fish,
    { AMOUNT($biomass_kg) }; feed today { AMOUNT($ration_kg) }.

farm-unknown = In { $units ->
    [one] one more unit
   *[other] { $units } more units
} the kilograms are not known: take a net sample.

farm-feed = { $case ->
    [left] Feed in store: { AMOUNT($left_kg) } of { AMOUNT($bought_kg) } bought since { DAY($since_on) }.
   *[short] { AMOUNT($left_kg) } more feed was given than bought since { DAY($since_on) }: a purchase is
        missing.
}

farm-feed-lot = { $feed }{ $size ->
        [known] { " " }({ AMOUNT($pellet_mm) } pellets)
       *[none] {""}
    }: { AMOUNT($left_kg) } left.

farm-feed-days = It lasts about { $days } days at today's rations.

farm-feed-buy = For four weeks buy { AMOUNT($buy_kg, end: "high") }.

farm-spent = Spent: { NUMBER($total, decimals: 2) } (fingerlings { NUMBER($fingerlings, decimals: 2) }, feed
    { NUMBER($feed, decimals: 2) }, other { NUMBER($other, decimals: 2) }).

farm-per-kg = A kilogram of fish cost { NUMBER($per_kg, decimals: 2) }: { AMOUNT($fish_kg) } are alive or
    were taken with their weight entered.

register-title = Register of fish, { DAY($since) } to { DAY($until) }

register-columns = date | unit | cohort | what | fish | kg | to | remark

register-kind = { $kind ->
    [stocked] stocked
    [moved] moved
    [graded] graded
    [died] died
    [harvested] harvested
    [sold] sold
   *[treated] treated
}

register-total = { $kind }: { $lines ->
    [one] one line
   *[other] { $lines } lines
}, { $fish_count } fish, { AMOUNT($weight_kg) }{ $without ->
    [0] .
   *[other] { " " }({ $without } without a weight).
}

order-fish = Order { NUMBER($fish_count, decimals: 0) } fingerlings of { AMOUNT($size_g) }, about
    { AMOUNT($weight_kg, digits: 2) }, for { AMOUNT($harvest_kg) } at { AMOUNT($plate_g) } on { DAY($harvest_on) }.

order-when = { $case ->
    [by] They must come by { DAY($by_on) }{ $early ->
        [known] ; by { DAY($early_on) } if growth is slow.
       *[past] ; if growth is slow, they come too late even today.
    }
   *[never] Fish of this size come too late even today.
}

order-survival = { PERCENT($low) } to { PERCENT($high) } of them are taken to live to the harvest.

cli-settings-heading = Settings of the command line: fishmeasure settings NAME=VALUE

cli-setting = { $case ->
    [species] Fish that is measured: a species' key, or its file.
    [print_scale] Printed length of the sheet's check line in mm / 100.
    [scale_resolution_g] Step of the scale's display, g.
    [wet_tare] Whether the empty net is weighed wet and drained.
    [units] Units of what is said and typed: metric, or US customary.
    [weight_unit] Unit of a weight that is typed without one.
   *[other] { $case }
}

cli-settings-kept = Kept in { $file }.

cli-serve-open = Open { $url }

cli-serve-local = Only this machine is let in; --lan lets phones in.

cli-serve-plain = Over plain HTTP anyone on this network can read along and pick up a paired
    phone's token; phones do not open the page without a network, may throw away what they
    have not sent yet, and show no picture of the camera in the page. Leave --plain out for
    HTTPS, or give --cert and --key.

cli-serve-certificate = { $case ->
        [new] A certificate for HTTPS was made. Each phone installs it once; the picture below
            leads to the steps.
       *[known] Phones that have installed the server's certificate go straight on.
    } It vouches for this machine and its network alone. Fingerprint (SHA-256), to compare
    on the phone: { $fingerprint }

cli-serve-code = Pairing code for the next phone, as the owner's: { $code }

start-page = { $case ->
        [title] Let this phone trust your server
        [why] Your server speaks HTTPS by a certificate that it has made itself. Install it once:
            then the page opens without a network, keeps what you enter until it is sent, and
            may use the camera.
        [certificate] 1. Load the certificate
        [iphone] iPhone and iPad
        [iphone-load] Open this page in Safari, tap “Load the certificate” and allow it.
        [iphone-profile] Open Settings. Tap “Profile Downloaded”, or General, then “VPN & Device
            Management”; tap the profile and “Install”.
        [iphone-trust] In Settings, General, About, “Certificate Trust Settings”, switch it on.
        [iphone-back] Come back to this page and go on.
        [android] Android
        [android-load] Tap “Load the certificate”. It goes to your downloads.
        [android-settings] Open Settings and search for “CA certificate”. It is mostly under
            Security, “Encryption & credentials”, “Install a certificate”.
        [android-choose] Tap “CA certificate”, “Install anyway”, and choose the file
            fishmeasure.crt. The phone may ask for a screen lock first.
        [android-back] Come back to this page and go on, in Chrome.
        [on] 2. Go on to the server
       *[what] The certificate can vouch for your server's names and network alone, whatever
            warning the phone shows. If you want to be sure that it is your server's, compare
            its fingerprint with the one where the server was started.
    }

cli-sheet = Print at 100 % ("actual size"), then measure the check line. It is 100 mm long;
    where it is 97 mm, say --print-scale 0.97 with every photo.

cli-demo-there = The spring tanks are in this book already.

cli-demo-try = Try: fishmeasure outlook "Tank A"{ $where }

cli-harvest = { DAY($on) }: the { $fish } largest fish{ $size ->
        [over] , over { AMOUNT($smallest_g, digits: 3) }
       *[any] {""}
    }, { AMOUNT($taken_kg) }; { $left ->
        [some] left { $left_fish } fish, { AMOUNT($left_kg) }
       *[none] none left
    }

cli-harvest-small = { $fish } fish are not yet at { AMOUNT($plate_g) } on { DAY($on) }.

cli-harvest-none = There is no fish to take on these days.

cli-harvest-all = In all { $fish } fish, { AMOUNT($taken_kg) }

cli-harvest-under = From { DAY($first_on) } on, fish under the plate size of
    { AMOUNT($plate_g) } are taken.

cli-harvest-short = { $fish } of the fish asked for are not there.

cli-species-columns = W = a L^b, W in g, L = fork length in cm; K = 100 W / L^3 at 25 cm.

cli-species-level = A stock not weighed may be this far off: weigh a net sample.

cli-species-no-growth = No growth, feed and oxygen figures: what follows from them is not
    answered for this species.

cli-species-lengths = length and weight

cli-species-general = food fish in general

cli-species-part = { $case ->
    [shape] shape
    [body] body
    [growth] growth
    [feed] feed
    [oxygen] oxygen
    [limits] limits
   *[water] water
}

cli-species-figure = { $case ->
    [fork_per_total] Fork length over total length
    [standard_per_total] Standard length over total length
    [thickness_per_depth] Thickness over body depth
    [depth_per_fork_length] Body depth over fork length
    [snout_height] Snout over the board, per half thickness
    [fork_height] Fork over the board, per half thickness
    [snout_radius] Radius of the snout from above, per half thickness
    [c_g_per_cm3] Weight over squared depth along the body, g/cm³
    [stock_relative_sd] Its spread between stocks, fraction
    [fish_relative_sd] Its spread between fish, fraction
    [squared_depth_per_cubed_length] Squared depth along the body over cubed fork length
    [squared_depth_per_depth2_length] Squared depth along the body over depth squared times fork length
    [tgc_x1000] Thermal growth coefficient x 1000, g^(1/3) per degree-day
    [optimum_temperature_deg_c] Growth no faster above, °C
    [plate_size_g] Plate size, g
    [fcr] Feed conversion ratio
    [protein_percent] Protein of the feed, %
    [fed_factor] Oxygen use after a meal over fasted, times
    [density_kg_per_m3] Most fish, kg/m³
    [min_saturation_percent] Oxygen that goes with that density, % of saturation
    [feeding_low_deg_c] Feeds from, °C
    [feeding_high_deg_c] Feeds up to, °C
    [act_low_deg_c] Deaths or lost balance at or below, °C
    [act_high_deg_c] Deaths or lost balance at or above, °C
    [do_watch_mg_per_l] Caution level of oxygen, mg/L
    [do_act_mg_per_l] Critical level of oxygen, mg/L
    [saturation_watch_percent] Watch oxygen over, % of saturation
    [saturation_act_percent] Act on oxygen over, % of saturation
    [ph_act_low] Act on pH under
    [ph_watch_low] Watch pH under
    [ph_watch_high] Watch pH over
    [ph_act_high] Act on pH over
    [unionised_ammonia_n_act_mg_per_l] Act on un-ionised ammonia over, mg/L as N
    [nitrite_n_watch_mg_per_l] Watch nitrite over, mg/L as N at 10 mg/L chloride
    [nitrite_n_act_mg_per_l] Act on nitrite over, mg/L as N at 10 mg/L chloride
    [nitrate_n_watch_mg_per_l] Watch nitrate over, mg/L as N
   *[other] { $case }
}

cli-species-word = { $case ->
    [high] high
    [medium] medium
    [low] low
    [farmed] farmed
    [wild] wild
    [exponential] exponential
   *[dome] dome
}

cli-species-line = W = { $a } L^{ $b }, W in g, L = { cli-length-kind } in cm,
    { NUMBER($least_mm, decimals: 0) } to { AMOUNT($most_mm, decimals: 0) }

cli-species-fork-line = W = { $a } FL^{ $b } on fork length

cli-species-spread = Level ± { PERCENT($level) } for an unknown stock, b ±
    { NUMBER($b_sd, decimals: 2) }, single fish ± { PERCENT($single) } about their stock's
    line

cli-species-stock = Of { $stock } fish; confidence { $confidence } ({ $origin })

cli-species-ration = { $case ->
    [chart] Ration: the trout chart
   *[growth] Ration: growth x feed conversion
}

cli-species-oxygen = Oxygen use of fasted fish: { $form } in temperature, ±
    { PERCENT($share) }, { NUMBER($least_deg_c) } to { AMOUNT($most_deg_c) },
    { NUMBER($least_g) } to { AMOUNT($most_g) } ({ $origin })

cli-saturation = Saturation: { AMOUNT($full_mg_per_l, decimals: 2) }

cli-oxygen-use = The fish use { AMOUNT($use_g_per_h) }

cli-oxygen-source = { $name }: { AMOUNT($brings_g_per_h) }

cli-oxygen-supply = Supply at { AMOUNT($kept_mg_per_l) }: { AMOUNT($supply_g_per_h) }

cli-oxygen-settles = Oxygen may settle as low as { AMOUNT($steady_mg_per_l, end: "low") }

cli-oxygen-carries = By oxygen alone the supply carries at least
    { AMOUNT($most_kg, end: "low") } of fish

cli-oxygen-balance = { $case ->
    [missing] At the unsafe end { AMOUNT($balance_g_per_h, digits: 3) } are missing
   *[spare] At the unsafe end { AMOUNT($balance_g_per_h, digits: 3) } are to spare
}

cli-outage-measures = { $name }: what buys time until critical, at least:

cli-outage-held = The caution level would be held by

cli-outage-air = backup air of { AMOUNT($air_g_per_h, end: "high") } standard transfer rate,

cli-outage-water = or { AMOUNT($water_l_per_min, end: "high") } of fresh water

cli-outage-load = Fish that would last { NUMBER($hours) } h: at most
    { AMOUNT($load_kg, end: "low") }

cli-taken-as-pumped = Taken as pumped: no new water in a power cut; say --inflow-by-gravity
    if it flows by itself.

cli-ask-temperature = { $unit }: what is its water temperature over the year? Without it the
    last reading is held for the whole year. Twelve figures from January on, or one for a
    spring: fishmeasure book change unit { SHELL($unit) } monthly_temperature_deg_c='[8.5]'

cli-ask-right = { $case ->
        [corrected] Is it right? y: store it as it is; c: store the corrected one; n: leave
            it.
       *[plain] Is it right? y: store it as it is; n: leave it.
    }

cli-version = { $name }, version { $version }

note-plate-size = Plate size { AMOUNT($plate_g) }

## cli: help

# Neither figures nor choices, only units: --help reads them without Fluent.

help-words-usage = Usage:
help-words-options = Options
help-words-arguments = Arguments
help-words-commands = Commands
help-words-options-metavar = [OPTIONS]
help-words-command-metavar = COMMAND [ARGS]...
help-words-default = default
help-words-required = required
help-words-help = Show this message and exit.

help-backup-command = Save book, photos and lens profiles in one checked file, while serving
    too.
help-restore-command = Put a backup back, once all of it is checked; stop the server before.
help-batch-command = Measure many photos; stopped and started again, it goes on where it
    was.
help-export-command = Write the whole book as one JSON file or as CSV tables.
help-import-command = Add what a file holds; what is in the book already is left as it is.
help-units-command = List the units.
help-cohorts-command = List the cohorts.
help-entries-command = List the entries, oldest first.
help-state-command = Show what is in every unit: count, mean weight and kilograms.
help-fields-command = List the kinds of entries, or the fields of one.
help-add-command = Add a unit, a cohort or an entry (dated today, unless on=2026-05-02).
help-change-command = Change a unit or cohort; the old version stays in the book.
help-correct-command = Write a corrected entry in place of a wrong one, which stays in the
    book.
help-cancel-command = Take an entry back; it stays in the book, but no longer counts.
help-explain-command = Tell what a code of a problem or an error means, and what is said
    with it.
help-fit-command = Fit a stock to fish weighed or measured one by one, by lengths or photos.
help-lens-command = Measure a phone's lens once; the profile sharpens every photo it takes.
help-outlook-command = Show one unit on one page: weight, biomass, harvest, feed, limits,
    outage.
help-demo-command = Fill a book of its own with the invented spring tanks, to try things on.
help-photo-command = Measure the fish in photos: lengths, and weights by their outlines.
help-plan-command = Say how many nets give the mean weight to within so many per cent.
help-sample-command = Estimate mean weight and spread from photos and bulk weighings of
    nets.
help-serve-command = Serve the phone page and the API, on this machine only unless --lan.
help-sheet-command = Write a page to print at 100 %, and a JSON file of what is true about
    it.
help-species-command = List the species, or show one with its sources and confidence.
help-feed-command = Show the ration and the kilograms of feed for today and the days ahead.
help-conversion-command = Show the feed conversion ratio of a period, biological and
    economic.
help-growth-command = Fit growth to a cohort's samples; weights and plate-size dates ahead.
help-harvest-command = Show what harvests of the largest fish yield and leave, on days or
    weekly.
help-ammonia-command = Show the un-ionised ammonia of a reading beside the species' limit.
help-nitrate-command = Show where nitrate goes with this feed, water exchange and plant bed.
help-plant-bed-command = Show the plant bed that the feed carries, and the feed a bed takes
    up.
help-oxygen-command = Show the oxygen that the fish use beside what comes in, at the caution
    level.
help-outage-command = Show how long oxygen lasts when something stops, and what buys time.
help-stocking-command = Show how near each limit is, the room left, or how many fish must
    go.
help-app = How heavy are the fish? Photos and bulk weighings to mean weight and spread.
help-version = Show the version and exit.
help-units = Units of what is said and typed, metric or us; else FISHMEASURE_UNITS, else those of
    'fishmeasure settings'. JSON is metric always.
help-language = Language of what is said, such as en; else that of the locale.
help-data-option = The server's folder; else FISHMEASURE_DATA_DIR, else your own.
help-file = The backup to make, such as monday.tar; none is overwritten.
help-restore-file = A backup that 'fishmeasure backup' made.
help-force = Replace the book that is there; it is kept beside.
help-source = Folder of photos, or a text file with a path a line.
help-results = File for the results, a line of JSON a photo; what it has is kept.
help-workers = Photos measured at the same time; else one a processor core.
help-full = Keep outlines and geometry too: 40 times as large a file.
help-dask = Address of a dask scheduler, to use more machines.
help-book-app = The stock book: units, cohorts and dated entries that are never overwritten.
help-target = FILE.json, or a folder for CSV tables.
help-import-source = FILE.json, a CSV table, or a folder of them.
help-unit = Only of this unit.
help-cohort = Only of this cohort.
help-everything = Also what was corrected or taken back.
help-on = The day, 2026-05-02; else today.
help-fields = FIELD=VALUE, such as unit="Tank A" cohort=Trout fish_count=2; see `fishmeasure
    book fields KIND`.
help-kind = unit, cohort, or a kind of entry.
help-change-kind = unit or cohort.
help-name = Its name.
help-entry = Id of the wrong entry, or its start.
help-cancel-entry = Id of the entry, or its start.
help-note = Why, for the book.
help-confirm = Store it as it is, also where it is far from what the book expects.
help-book-option = File or address of the book, such as postgresql://host/name; else
    FISHMEASURE_BOOK, else your own.
help-code = Such as no-marker; all, if left out.
help-table = CSV, a row a fish, with weight_g (or weight_kg) and length_mm (or length_cm)
    and, if measured, depth_mm; or with photo, fish (its number, where a photo shows
    several) and weight_g, fork_length_mm as read on a ruler, or both.
help-species = The species that the stock is of.
help-length = Which length was measured.
help-save = Write the stock's own species file here (.toml).
help-plot = Write a plot here (.png, .pdf or .svg).
help-instructions = Write a page to print here (.pdf): photograph and weigh five fish.
help-photos = Photos of the board of 'fishmeasure sheet lens-board'.
help-lens-name = What you call this phone or lens.
help-out = File of the profile to write.
help-options-species = Name from 'fishmeasure species', or a TOML file of your stock; else that of
    'fishmeasure settings', or rainbow-trout.
help-print-scale = Length of the sheet's printed check line in mm / 100: 0.97 where it is 97
    mm long; else that of 'fishmeasure settings', or 1.
help-paper = Paper of the printed sheet, A4, A3 or Letter; else the markers tell it.
help-known = Without a marker: two points in the photo, in pixels from its top left, and how
    far apart they are.
help-water = The fish are in a tub of water, the sheet or cards on its bottom.
help-water-depth = With --water: from the water's surface to the sheet, { unit-mm }; makes lengths
    surer.
help-lens = Lens profile that 'fishmeasure lens' wrote.
help-json-to = Write the figures as JSON; - for the screen.
help-csv-to = Write the fish as CSV; - for the screen.
help-overlay = Folder for pictures with the fish drawn in.
help-outlook-unit = Name of the unit.
help-pdf = Write the page to print to this file.
help-hours = Hours of outage that the fish should survive.
help-fingerlings = Weight of fingerlings that may be added, { unit-g }.
help-days = Days ahead for which there must be room.
help-demo-on = Last day of the invented data, 2026-08-01; else today.
help-photo-photos = Photos with a printed marker in view.
help-within = Wanted: the mean weight to within ± this many per cent.
help-level = Chance that the interval holds: 0.9 is 90 %.
help-fish-per-net = Only nets of this many fish.
help-count = Fish in the unit.
help-sample = JSON that 'fishmeasure sample --json' wrote of the last sample, for how much
    fish and nets differ; else typical figures.
help-cv = Spread (CV) of weights in a net: 0.25 is 25 %.
help-between = Spread (CV) between nets beyond that: 0.09 is 9 %.
help-net-minutes = Minutes that a net takes to dip, drain and weigh, beside its fish.
help-fish-minutes = Minutes that a fish of a net takes to count, lay out and put back.
help-strata = Parts of the unit (depths, places) that are netted apart: shares of its fish in
    per cent, as 50/30/20, with mean weights in g where known, as 50:180/50:220.
help-farm-command = Show all units, feed in store, the register of fish, and what a kilogram cost.
help-farm-since = First day of the register, such as 2026-01-01; else a year before.
help-farm-pdf = Write the farm and its register to print here (.pdf).
help-fingerling-price = Price of a stocked fish, in your money; with the other two the cost of a
    kilogram follows.
help-feed-price = Price of a kilogram of feed.
help-other-costs = All other costs of a month: power, water, oxygen, wages.
help-order-command = Say how many fingerlings of what size to order, and when, for a harvest.
help-order-kg = Kilograms of fish that are wanted.
help-order-on = Day of the harvest, such as 2027-09-15.
help-order-temp = Water temperature, °C, the same all the year.
help-order-unit = In place of it: a unit of the book, with its temperatures.
help-order-plate = Weight of a fish at harvest, g; else the species' plate size.
help-order-size = Weight of a fingerling when it comes, g.
help-order-survival = How many of 100 fingerlings live to the harvest; else 75 to 95.
help-settings-command = Show or change what other commands take where they are told nothing.
help-settings-words = Such as print_scale=0.97; NAME= alone takes it back.
help-weigh-command = Ask for a sample net by net and write its file; each net is kept at once.
help-weigh-sample = File to write, or to go on with if it is there.
help-weigh-table = Take the nets from this table (.csv: a row for each net) and ask nothing.
help-sample-sample = SAMPLE.toml, or a table (.csv): nets with weighings and photos.
help-sample-species = Species, in place of the one in the file.
help-plots = Folder for plots of weights and lengths.
help-record = Enter the sample in the book, as one of this cohort.
help-sample-save = Write the stock's own species file here (.toml), as the weighing of
    photographed nets tells it.
help-port = Port of the address to open.
help-lan = Let phones on the local network in, by pairing.
help-host = Address to listen on, 0.0.0.0 for any, as behind a proxy; devices are then paired.
help-prefix = Path under which a proxy passes on to here, such as /fish.
help-plain = With --lan: plain HTTP, without the server's own certificate.
help-book = File or address of the book; else FISHMEASURE_BOOK, else your own.
help-data = Folder of photos and book; else FISHMEASURE_DATA_DIR, else your own.
help-cert = TLS certificate (PEM).
help-key = TLS private key (PEM).
help-serve-workers = Photos measured at the same time.
help-sheet-kind = The sheet, four loose cards, one card, or the board for 'lens'.
help-sheet-paper = Paper size.
help-sheet-out = PDF to write; by default named after kind and paper.
help-sheet-tub = Write the sheet and the cards for a tub of water, to laminate.
help-sheet-dummy = Write a fish of 200 mm to cut out, to check camera and tub with.
help-check-command = Check camera, sheet and tub with a dummy or a fish of known length.
help-check-photo = A photo with the sheet and the dummy in view.
help-check-length = Its length from snout to tail as a ruler reads it, mm.
help-check-height = How high it lies over the sheet, mm: its spacer.
help-check-ends = Both of its ends in the photo, in pixels, where they are not found.
help-count-command = Count the fish in photos of a tub or a tray, fingerlings too.
help-count-photos = Photos with a printed marker in view.
help-count-expected = Fish that should be there; said where the photos contradict it.
help-every = Write every page into the folder --out.
help-species-name = A species' name, or your own stock's TOML file.
help-feed-days = Days of feed.
help-feed = Feed given, { unit-kg }.
help-start = Biomass at the start, { unit-kg }.
help-end = Biomass at the end, { unit-kg }.
help-removed = Sold or moved out, { unit-kg }.
help-dead = Died, { unit-kg }.
help-added = Stocked or moved in, { unit-kg }.
help-growth-days = Days ahead.
help-harvest-count = Fish in the cohort.
help-take = DATE=NUMBER of the largest fish; repeat it.
help-weekly = Instead of --take, every week until --until: a number of fish (60), kilograms
    (20kg), or 'size': all that are at plate size.
help-from = First day of --weekly, 2026-05-02; else today.
help-until = Last day of --weekly, 2026-10-31.
help-count-error = Standard error of the count, %.
help-tan = Total ammonia nitrogen, mg/L.
help-ph = pH.
help-tan-error = Standard error of the reading, %.
help-nitrate-feed = Feed a day, { unit-g }.
help-nitrate-start = Nitrate nitrogen now, mg/L.
help-exchange = Water exchanged, { unit-m3-per-day }.
help-protein = Protein of the feed, %; else the species'.
help-bed = Plant bed, { unit-m2 }.
help-crop = Crop or kind of bed: leafy, fruiting, raft or nft.
help-species-argument = Such as rainbow-trout; see 'fishmeasure species'.
help-biomass-error = Standard error of the biomass, %.
help-salinity = Salinity, g/kg.
help-temp = Water temperature, { unit-deg-c }.
help-volume = Water, { unit-m3 }.
help-wind = Wind over the water, m/s.
help-fasted = The fish were not fed since the day before.
help-plate-size = Plate size, { unit-g }; else the species'.
help-mean-weight = Mean weight of the fish, { unit-g }.
help-biomass = Fish in the unit, { unit-kg }.
help-depth = Mean depth, { unit-m }; without it the surface is left out.
help-inflow = Inflow, { unit-l-per-min }.
help-inflow-do = Oxygen of the inflow, mg/L; else 95 % of saturation.
help-standard-transfer = Aerators' standard oxygen transfer rate, g/h.
help-air = Air pumps: { unit-l-per-min } of air in all; or --standard-transfer.
help-air-depth = Depth of the diffusers under the water, { unit-m }.
help-bubbles = Bubbles of the diffusers: fine, medium or coarse.
help-altitude = Altitude, { unit-m }.
help-water-use = Oxygen that water and bottom use, mg/L an hour.
help-cohort-options-sample = A mean weight: DATE=GRAMS, or DATE=GRAMS/PERCENT with its
    standard error; once for each sample.
help-cohort-options-temp = Water temperature all year, { unit-deg-c }; or --monthly or --wave.
help-monthly = Water temperatures of the twelve months, January first: 4,4,6,...
help-wave = Water temperature as MEAN,AMPLITUDE,DAY: 9,5,205 is 4 to 14 °C, warmest on the
    205th day of the year.
help-cohort-options-cv = Spread of weights (CV): 0.25 is 25 %.
help-oxygen = Oxygen in the water when it stops, mg/L.
help-inflow-by-gravity = The inflow runs on without power.
help-cause = Only this: power, pump, blower, intake, device or oxygen; else all that the
    unit has.
help-backup-transfer = Backup air: standard oxygen transfer rate, g/h.
help-backup-hours = Hours that the backup's battery lasts.
help-outage-hours = Hours to last: how many fish would?
help-chart = Write a chart to this file (.png, .svg or .pdf).
help-stocking-ph = pH, for the ammonia.
help-density = Your own density limit, { unit-kg-per-m3 }; else the species'.
help-condition = Condition factor K, for the density and flow index.
help-stocking-days = Days ahead that the unit must hold its fish.

## api: the server's own errors

setting = { $name }={ QUOTED($value) } is not { $wanted }.

busy = The server is measuring as many photos as it can.
    .advice = Nothing is lost: send the photo again in a few seconds.
    .meaning = All workers are at work and the queue is full.

workers-lost = The programs that measure photos were ended again and again at the server,
    perhaps for want of memory.
    .advice = Nothing is wrong with the photo: send it again in half a minute. If that
        fails too, free memory at the server or start it anew.
    .meaning = What measures photos was ended from outside; the photo was not judged.

disk-full = The server's disk is full, so this could not be kept.
    .advice = Make room at the server, then send it again; nothing that it has said to have
        is lost.
    .meaning = There is no room for what was sent.

storage-failed = The server cannot use its disk ({ $reason }), so this could not be done.
    .advice = Look at the server's data folder, then try again; nothing that it has said to
        have is lost.
    .meaning = The server's disk refuses to read or write.

not-found = { $case ->
        [address] There is nothing at this address.
       *[record] There is no { record-word } { QUOTED($name) }.
    }
    .advice = { $case ->
        [address] Look at the API description.
       *[record] Look at the list of them.
    }
    .meaning = Nothing of that name is here.

conflict = The { record-word } was changed meanwhile.
    .advice = Load it again, then repeat the change.
    .meaning = Somebody else changed the thing meanwhile.

not-paired = This device is not paired with the server, or not any more.
    .advice = Open the address that the server shows and enter its code, or ask the owner
        for an invitation.
    .meaning = The device has no valid token: it was never paired, was unpaired, or was not
        used for too long.

not-allowed = { $role ->
        [reader] This device may look at everything and change nothing
       *[worker] This device may enter, photograph and sample, and nothing else
    }; this is for { $least ->
        [worker] workers and the owner
       *[owner] the owner
    }.
    .advice = Let the owner do it, or give this device another role under “Devices”.
    .meaning = A paired device asked for what its role may not.

foreign-origin = The request came from a page of another address.
    .advice = Open the page at the server's own address.
    .meaning = A page from elsewhere tried to write.

unknown-host = This server does not go by the name { QUOTED($host) }.
    .advice = Use the address that it shows, or list the name in the server's
        setting HOSTS.
    .meaning = The request was sent to a name that is not this server's.

wrong-code = The pairing code is wrong or too old.
    .advice = Enter the newest code that the server shows.
    .meaning = A pairing code was wrong or too old.

too-many-tries = Too many wrong pairing codes came from this device's address.
    .advice = Wait { $wait_s } s, then enter the newest code that the server shows. Other
        devices can be paired meanwhile.
    .meaning = Wrong pairing codes came too often from one address.

photo-lost = The server's file of this photo is gone or damaged; what was measured in it
    is there.
    .advice = Send the same photo once more, and it is whole again, or put it back from a
        backup.
    .meaning = A kept photo's file is gone or damaged.

photo-deleted = { $case ->
        [named] This photo was deleted by { $by } on { DAY($on) }
       *[unnamed] This photo was deleted on { DAY($on) }
    }; what was measured in it is kept.
    .advice = Take another photo; this one is not taken again.
    .meaning = The owner deleted a photo's file.

too-slow = Measuring this photo took more than { $limit_s } s and was stopped.
    .advice = Send it again when less is going on, or take another photo.
    .meaning = Measuring a photo took too long, and was given up.

too-slow-upload = The upload took more than { $limit_s } s.
    .advice = Nothing is lost: send it again where the network is better.
    .meaning = A request came too slowly.

too-many-photos = One upload may have { $limit } photos.
    .advice = Send the rest in another one.
    .meaning = One upload has more photos than the server takes at once.

no-estimate = This sample gives no mean weight yet.
    .advice = Weigh a net or add a photo with fish measured, then save it.
    .meaning = The sample has no estimate to be drawn or entered.

no-nets = There is no net in this sample yet.
    .advice = Net some fish, count and weigh them, or photograph them beside the marker.
    .meaning = The sample has no net yet.

book-not-empty = The book has something in it already.
    .advice = The demo goes into a book of its own: name another file for it.
    .page = Start the server with another, empty book to see the demo.
    .meaning = The demo would mix with what is in the book.

invalid-request = { $field } { STOP($reason) }
    .advice = Correct the request; the API description lists each field.
    .meaning = A field of the request is missing, unknown or unusable.

bad-request = The request cannot be understood: { STOP($told) }
    .advice = Look at the API description.
    .meaning = The request cannot be taken apart.

wrong-method = This address does not take { $method }.
    .advice = Look at the API description.
    .meaning = The address does not take that method.

internal = The server failed in a way that was not foreseen.
    .advice = Try once more; if it fails again, report it with the time of day.
    .meaning = The server failed in a way that was not foreseen.

## page: texts of the phone page (ids begin with page-)

## page: what the phone page itself says, figures already in the phone's units

page-back = Back
page-cancel = Cancel
page-done = Done
page-yes = Yes
page-loading = One moment…
page-stale = Shown as last seen; the server is out of reach.
page-cautions = Cautions
page-tabs = Main screens
page-tab-today = Today
page-tab-waiting = Outbox
page-tab-guide = Guide
page-tab-settings = Settings

page-network-unreachable = Server out of reach. Go on; everything is kept on this phone.
page-version-newer = There is a newer version of this page.
page-version-reload = Load it
page-error-title = This did not work
page-error-full = This phone has no room left, so nothing more can be kept. Make room,
    or send what waits.
page-error-no-screen = There is no such screen.
page-error-unreachable = The server is out of reach.
page-error-unreachable-advice = This was not looked at before, so nothing of it is kept
    here. Try again where there is a network.
page-drawing-missing = The drawing cannot be shown now.

page-state-waiting = waiting
page-state-sending = sending
page-state-measured = measured
page-state-refused = refused
page-state-asked = is it right?
page-state-saved = saved

page-today-title = Today
page-today-as-of = As of { $when }. What has happened since is not in it.
page-today-waiting = { $n } on this phone
page-today-withdrawal = Not for food until { $date }: { $product }.
page-today-withdrawal-open = Not for food, no end known: { $product }.
page-today-fed-of = Fed { $fed } of { $ration } today
page-today-fed = Fed { $fed } today
page-today-sample = Sample
page-today-water = Water
page-today-entered = Entered on this phone
page-today-more = { $n } more
page-today-farm = The farm
page-today-units-unknown = { $n ->
    [one] without { $n } unit, whose fish were never weighed
   *[other] without { $n } units, whose fish were never weighed
    }
page-today-ration = Feed for the day
page-today-store = Feed in store
page-today-store-unknown = no feed bought is entered
page-today-lasts = lasts { $days } days
page-today-to-buy = to buy for four weeks: { $value }
page-today-print = The farm to print (PDF)
page-where-here = on this phone
page-where-sending = being sent
page-where-sent = sent
page-where-refused = refused, see the outbox
page-due-count = { $n ->
    [one] something due in { $n } unit
   *[other] something due in { $n } units
    }

page-quick-title = { $what }, { $unit }
page-quick-no-feed = Give no feed now
page-quick-fed = { $value } is given today.
page-quick-ration-of = The ration is that of { $date }.
page-quick-protein = { $percent } % protein
page-quick-same-feed = Taken as the feed of last time: { $what }.
page-quick-ration = Ration { $value }
page-quick-rest = Left to give { $value }
page-quick-last = As last time { $value }
page-quick-need = Type a figure first.
page-quick-which = Choose whose fish.
page-quick-save = Save
page-quick-more = Date, note and more
page-quick-kept = { $what }, { $unit }: kept on this phone

page-remind = Reminders
page-remind-how = A message on this phone when something is due, at most once a day and when
    water turns bad. It comes only while this page is open in the background; nothing is
    sent through others.
page-remind-cannot = This browser allows it only on a secure page (HTTPS), or not at all.
    What is due stands on the first screen.
page-remind-on = Remind me on this phone
page-remind-off = Remind me no more
page-remind-is-on = This phone reminds you.
page-remind-denied = The browser did not allow it. Its own settings for this page can.
page-remind-title = { $n ->
    [one] Due in { $n } unit
   *[other] Due in { $n } units
    }

page-home-add = Add a unit
page-home-empty = Nothing is swimming here yet
page-home-empty-how = Enter your first tank, pond, raceway or cage. Its size and water
    are enough to begin with.
page-home-demo = Look round with invented tanks
page-home-fish = { $count } { $species }
page-home-biomass = { $value } in all
page-home-sampled = { $n ->
    [one] sampled yesterday
   *[other] sampled { $n } days ago
    }
page-home-sampled-today = sampled today
page-home-unfinished = { $unit }: sample not finished
page-home-unfinished-nets = { $n ->
    [one] { $date }, { $n } net
   *[other] { $date }, { $n } nets
    }
page-fish-count = { $shown } fish

page-unit-gone = This unit is not in the book.
page-unit-no-fish = No fish entered
page-unit-no-fish-how = Enter which fish came in, and how many. Then a sample can be
    weighed.
page-unit-unweighed = Not weighed yet
page-unit-each = a fish
page-unit-count = Fish in the book
page-unit-sampled = Last sample
page-unit-waiting = On its way to the server.
page-unit-stock = Enter fish stocked
page-unit-sample = Sample this unit
page-unit-which = Which fish do you sample?
page-unit-go-on = Go on with the sample
page-unit-go-on-of = Go on with the sample begun on { $who }
page-unit-go-on-other = Go on with the sample of another phone
page-unit-history = Growth
page-unit-growth-alt = Mean weight over time with its intervals, and the forecast.
page-unit-distribution-alt = Spread of weights, sample by sample.
page-unit-more = More about this unit
page-unit-plan = Plan: harvest, feed, room, outage
page-unit-book = Book of entries
page-unit-print = Outlook to print (PDF)
page-unit-grade = Grade by size
page-unit-change = Size and water

page-unit-form-new = New unit
page-unit-form-change = { $unit }: size and water
page-unit-form-how = Name, volume and depth are needed. The more is said of the water,
    the better the oxygen figures.
page-unit-form-save = Save the unit
page-unit-form-label = Unit { $unit }
page-kind-tank = Tank
page-kind-pond = Pond
page-kind-raceway = Raceway section
page-kind-cage = Cage
page-unit-name = Name
page-unit-kind = Kind
page-unit-volume_m3 = Volume of water
page-unit-depth_m = Depth of water
page-unit-inflow_l_per_min = New water
page-unit-inflow_l_per_min-hint = Time how long a 10 L bucket takes to fill: 600 divided
    by the seconds.
page-unit-inflow_by_gravity = New water flows in without power
page-unit-inflow_by_gravity-hint = Tick only if no pump lifts it. Otherwise none is
    counted on in a power cut.
page-unit-recirculated_l_per_min = Recirculated water
page-unit-plant_bed_area_m2 = Plant bed
page-unit-water_system = How the water is kept clean
page-unit-water_system-hint = Decides which limits apply to ammonia and nitrate.
page-water_system-none = As the flows above say
page-water_system-flow-through = New water flows through
page-water_system-pond = Pond
page-water_system-closed-loop = Closed loop with a biofilter
page-water_system-bed-loop = Closed loop with a plant bed
page-unit-biofilter_feed_kg_per_day = Feed a day that the biofilter was sized for
page-unit-water_respiration_mg_per_l_h = Oxygen that water and bottom use
page-unit-water_respiration_mg_per_l_h-hint = For ponds: how far oxygen falls in an hour
    of the night, less what the fish use.
page-unit-altitude_m = Altitude
page-unit-altitude_m-hint = Water holds less oxygen higher up.
page-unit-aerator = Aerator
page-aerator-gas_l_per_min = Air pump: litres of air a minute
page-aerator-gas_l_per_min-hint = As printed on it, at the depth of its diffuser. Two
    pumps: both together.
page-aerator-diffuser_depth_m = Water over the diffuser
page-aerator-depth-wrong = Give the depth of the diffuser with the litres of air.
page-aerator-bubbles = Its bubbles
page-bubbles-coarse = coarse (pipe, air stone of gravel size)
page-bubbles-medium = medium (perforated hose)
page-bubbles-fine = fine (like milk in the water)
page-aerator-standard_transfer_g_per_h = Aerator: oxygen transfer in clean water
page-aerator-standard_transfer_g_per_h-hint = The standard rate, if its data sheet has
    one. It counts before the litres of air.
page-aerator-on_backup = The aerator runs on a battery when the power fails
page-aerator-backup_hours = Hours that the battery lasts
page-aerator-backup_hours-hint = As tried out. Empty: not counted.
page-unit-monthly = Water temperature by month ({ $unit })
page-unit-monthly-hint = Twelve figures from January on, with spaces between; one figure
    for a spring that is about constant. Without it the last reading is held for the
    whole year.
page-unit-monthly-wrong = Give twelve temperatures from January to December, one for all
    the year, or none.
page-unit-note = Note

page-stocking-title = Fish into { $unit }
page-stocking-save = Save the fish
page-stocking-cohort = Cohort { $name }
page-field-species_key = Species
page-stocking-name = Name of this cohort
page-field-on = Date
page-field-fish_count = Number of fish
page-field-mean_weight_g = Mean weight of a fish
page-field-plate_weight_g = Plate size
page-field-cohort_id = Cohort
page-field-to_unit_id = To unit
page-field-cause = Cause, if known
page-field-feed_kg = Feed
page-field-feed_name = Name of the feed
page-field-pellet_mm = Pellet size, mm
page-field-product = Medicine
page-field-withdrawal_days = Withdrawal period, days
page-field-withdrawal_degree_days = Or in degree-days, °C x days
page-field-reason = Against what
page-field-protein_fraction = Protein in the feed
page-field-weight_kg = Weight in all
page-field-bulk_weight_kg = Weight in all
page-field-temperature_deg_c = Temperature
page-field-do_mg_per_l = Dissolved oxygen
page-field-ph = pH
page-field-tan_mg_per_l = Total ammonia nitrogen (TAN)
page-field-nitrite_n_mg_per_l = Nitrite nitrogen (NO2-N)
page-field-nitrate_n_mg_per_l = Nitrate nitrogen (NO3-N)
page-field-alkalinity_mg_per_l = Alkalinity, as CaCO3
page-field-chloride_mg_per_l = Chloride
page-field-ammonia_as_nh4_mg_per_l = If the kit reads NH4: ammonia as NH4
page-field-ammonia_as_nh3_mg_per_l = If the kit reads NH3: total ammonia as NH3
page-field-nitrite_as_no2_mg_per_l = If the kit reads NO2: nitrite as NO2
page-field-nitrate_as_no3_mg_per_l = If the kit reads NO3: nitrate as NO3
page-field-note = Note
page-form-optional = (optional)
page-form-needs = Fill in { $fields }.
page-form-or = { $one }, or { $other }
page-form-with = { $one } with { $other }
page-form-needs-any = Fill in at least one figure.
page-form-range = { $label } ({ $from } to { $to })
page-form-unclear = { $label } ({ $whole } or { $decimal }?)
page-form-wrong = Look again at: { $fields }.

page-sample-title = Sample, { $unit }
page-sample-gone = This sample is no longer on this phone.
page-sample-recorded = In the book
page-sample-taken-back = Taken back on { $date }
page-sample-take-back = Take this sample back
page-sample-take-back-sure = Take this sample out of the book? Its photos and nets are kept on the server.
page-sample-take-back-write = Take back the sample of { $unit }
page-sample-begun = Begun on { $who }
page-sample-begun-changed = Begun on { $who }, last changed on { $last }
page-sample-clash = Net { $n } was changed on another phone, too. It now says { $theirs }; here it said { $ours }. Correct it if that is wrong.
page-sample-closed-elsewhere = { $who } has closed this sample meanwhile. What was changed here since is not in it.
page-sample-answer = Show the answer
page-sample-add-net = Add another net
page-sample-tip = Several nets from different places say more than one full net.
page-sample-discard = Throw this sample away
page-sample-discard-sure = Throw away this sample with its photos and weighings?
page-sample-so-far = So far { $value } a fish
page-sample-updating = being worked out again…
page-sample-weighed-so-far = { $value } a fish
page-sample-plain = { $n ->
    [one] From { $n } weighing alone; the interval comes from the server.
   *[other] From { $n } weighings alone; the interval comes from the server.
    }
page-net-title = Net { $n }
page-net-photograph = Photograph
page-net-choose = Choose photos
page-net-weigh = Weigh this net
page-net-weigh-again = Change the weighing
page-net-mean = { $value } a fish
page-net-unweighed = not weighed
page-net-remove = Remove net { $n }
page-net-remove-sure = Remove this net with its photos and weighing?

page-tub-choice = In the tub: alive, in water, sheet or cards on its bottom
page-tub-water_depth_mm = Water depth, { $unit }
page-tub-water_depth_mm-hint = From the surface to the sheet; leave it empty if you cannot
    measure it.
page-tub-scale_division_g = The scale's division, { $unit }
page-tub-scale_division_g-hint = What the scale under the tub shows next after 0. Its tare is
    the tub with its water.
page-tub-caution = Minutes, not longer; water of their own unit, aerated; watch the fish and
    stop when they gasp or roll. No more than 0.1 kg of fish in a litre, half of it in warm
    water, and back within 5 minutes.

page-weigh-title = Weigh net { $n }
page-weigh-fields = What the keys fill
page-weigh-gross = Net with fish
page-weigh-tare = Wet net alone
page-weigh-fish = Fish in it
page-weigh-next = Next: { $field }
page-weigh-save = Save the weighing
page-weigh-how = Let it drip for as long each time, then read the scales.
page-weigh-seen = { $n ->
    [one] The photo shows { $n } fish.
   *[other] The photos show { $n } fish.
    }
page-weigh-differs = { $n ->
    [one] The photo shows { $n }.
   *[other] The photos show { $n }.
    }
page-weigh-result = { $net } of fish, { $mean } each.
page-weigh-need-gross = Enter the net with fish.
page-weigh-need-count = Enter how many fish are in it.
page-weigh-tare-too-much = The net alone cannot weigh as much as the net with fish.
page-pad-title = Number keys
page-pad-erase = Erase
page-pad-point = Decimal point
page-pad-unit = in { $unit } – change

page-look-title = Photograph the net
page-look-starting = The camera is starting.
page-look-none = No marker to be seen. Is the sheet in view, and sharp?
page-look-night = Too dark to see a marker.
page-look-missing = { $n } of { $of } markers in view.
page-look-tilted = Tilted by about { $deg }°. Hold the phone level.
page-look-far = Too far away. Come closer.
page-look-dark = Too dark. Bring light.
page-look-bright = Too bright. Shade the fish.
page-look-blurred = Blurred. Hold still, or wipe the lens.
page-look-moving = Hold still.
page-look-good = Sheet well seen: { $width } across. All fish in view?
page-look-taking = The photo is being taken.
page-look-taken = The photo is taken.
page-look-shutter = Take it
page-look-auto = Take it by itself when the sheet is well seen
page-look-own = The phone's own camera
page-look-own-what = The camera in the page shows whether the markers are in view, level and sharp
    before the photo is taken.
page-look-own-always = Use the phone's own camera instead
page-look-own-how = Take the photo with the phone's own camera; only the hints before the shot are
    missing.
page-look-refused = The browser does not let this page use the camera.
page-look-absent = The browser gives this page no camera.
page-look-slow = No hints: this phone is too slow for them.
page-photo-title = Photo
page-photo-alt = Photo of the net sample
page-photo-no-picture = The picture cannot be drawn or fetched. Lengths and weights
    stand as they are.
page-photo-gone = This photo is no longer on this phone.
page-photo-this = this photo
page-photo-twice = This photo is in this sample already.
page-photo-twice-advice = Remove it here; its fish are counted once.
page-photo-measuring = Fish are being measured.
page-photo-measured = { $n } fish found.
page-photo-pending = Your changes are on their way.
page-photo-unusable = Take this photo again
page-photo-could-be-better = This photo could be better
page-photo-retake = Take it again
page-photo-remove = Remove this photo
page-photo-remove-sure = Remove this photo from the net?
page-photo-delete = Delete the picture for good
page-photo-delete-sure = Delete this picture from the server for good? What was measured in
    it stays, and so does who deleted it. Backups that were made before still have it.
page-photo-deleted = The picture was deleted on { $on } ({ $name }). What was measured in it
    stays.
page-photo-scale-by-hand = Give the scale by hand
page-photo-add = Missed fish
page-photo-weigh = Weigh net
page-photo-error = ± is one standard error.
page-photo-outline = Weights of { $species } are by the depth of each body beside its
    length: standard error about 15 %.
page-photo-book = Weights of { $species } by length are from the published line alone:
    standard error 25 %.
page-photo-weigh-net = Weigh the net.
page-photo-near = Come near to the pixels
page-photo-whole = Show the whole photo
page-photo-look-doubtful = Look at the doubtful fish
page-photo-next-doubtful = Next doubtful
page-photo-used = { $n } used
page-photo-doubtful = { $n } doubtful
page-photo-out = { $n } not used
page-fish-title = Fish { $n }
page-fish-not-used = not used
page-fish-drag = Drag snout and fork to where they belong.
page-fish-measuring-again = being measured again…
page-fish-leave-out = Leave out
page-fish-use = Use it
page-fish-species = Species
page-fish-undo = Undo
page-handle-snout = Snout: drag it, or use the arrow keys
page-handle-fork = Fork of the tail: drag it, or use the arrow keys
page-handle-snout-short = S
page-handle-fork-short = F
page-add-title = Add a missed fish
page-add-first = Tap the snout
page-add-second = Tap the fork of the tail
page-add-how = Keep the finger down to see it enlarged; it counts when you let go.
page-scale-title = Scale by hand
page-scale-first = Tap one end of a length you know
page-scale-second = Tap its other end
page-scale-how = A ruler or a board's edge, at the height of the fish. Long is better
    than short.
page-scale-distance = How long is it?
page-scale-save = Measure with it
page-species-choose = Which species is it?

page-answer-title = Answer, { $unit }
page-answer-nothing = Photograph or weigh a net first.
page-answer-waiting = The server works the answer out as soon as it is reached.
page-answer-kept = Your photos and weighings are safe on this phone.
page-answer-mean = Mean weight
page-answer-interval = { $range } with { $percent } % confidence
page-answer-from = From { $weighed } fish weighed in nets and { $measured } measured on
    photos
page-answer-chain = This sample: { $own }; with all before it: { $all }.
page-answer-taken-off = { $name ->
        [drip] Drip water taken off the nets: { $percent } %, { $grams }.
        [doubt] Taken off the mean of the netted fish, as a net may be wrong:
            { $percent } %, { $grams }.
       *[netting] Taken off the mean, as netted fish are heavier: { $percent } %, { $grams }.
    }
page-answer-spread = Spread
page-answer-spread-alt = How the weights of the fish are spread.
page-answer-cv = Coefficient of variation
page-answer-small = 10th percentile
page-answer-large = 90th percentile
page-answer-fork-length = Mean fork length
page-answer-condition = Condition factor
page-answer-biomass = Biomass
page-answer-for-count = for { $n } fish
page-answer-nets = The nets
page-answer-next = { $verdict ->
        [enough] The mean is known to ±{ $now } %: for ±{ $percent } % no other net is needed.
        [worth-it] The mean is known to ±{ $now } %. One more net of { $fish } fish is worth it
            and brings ±{ $then } %; about { $n } more bring ±{ $percent } %.
       *[other] The mean is known to ±{ $now } %; more nets hardly bring ±{ $percent } %. Weigh
            a counted part of the unit.
    }
page-answer-save = Save into the book
page-answer-saving = Being saved; it happens by itself once the server is reached.
page-answer-saved = Saved into the book.
page-answer-to-unit = To the unit

page-chart-how = Touch the chart for its figures; on a keyboard, the arrow keys.
page-chart-of = Figures of { $date }.
page-chart-sample = Sample
page-chart-forecast = Forecast
page-chart-ahead = { $cohort }: forecast with its interval
page-chart-samples = { $cohort }: samples
page-chart-plate = Plate size { $weight }
page-chart-sizes = Weights of the fish today, against plate size
page-chart-fish = fish
page-chart-x = Weight of a fish, { $unit }
page-chart-load = Biomass ahead against the nearest limit
page-chart-load-limit = Nearest limit: { $limit }; surely below it up to { $safe }, likely up to { $likely }
page-chart-limit-density = density
page-chart-limit-density-index = density index
page-chart-limit-flow-index = flow index
page-chart-limit-oxygen = oxygen supply
page-chart-limit-ammonia = ammonia
page-chart-limit-safe = Surely below the limit
page-chart-limit-likely = Likely limit
page-chart-oxygen = Oxygen after: { $what }
page-chart-after = After { $hours } h
page-chart-oxygen-expected = Oxygen with its interval
page-chart-caution = Caution { $value } mg/L
page-chart-critical = Critical { $value } mg/L

page-plan-title = Plan, { $unit }
page-plan-kept = Figures of { $when }; the server works out others once it is reached.
page-plan-unknown = This cannot be told now; what is missing stands above.
page-plan-harvest = Harvest by weeks
page-plan-feed = Feed
page-plan-room = Room for fingerlings
page-plan-outage = Power cut and other stops
page-plan-harvest_weeks = Weeks of harvest
page-plan-harvest_count = Largest fish taken each week
page-plan-feed_days = Days to feed
page-plan-room_days = Days until the room must last
page-plan-fingerling_weight_g = Weight of a fingerling
page-plan-outage_hours = Hours to survive without it
page-plan-weeks = { $n ->
    [one] { $n } week
   *[other] { $n } weeks
    }
page-plan-days = { $n ->
    [one] { $n } day
   *[other] { $n } days
    }
page-plan-short = There are { $n } fish fewer than asked for.
page-plan-room-note = { $value } now; no limit may be passed until { $date }.
page-plan-take-out = No room: { $n } fish must go by { $date }, when a limit may be passed.
page-plan-outage-note = of fish surely live so long after: { $what }. Likely { $likely }.
page-plan-now = In the unit now
page-plan-critical = Until { $value } mg/L with those, at least

page-upload-progress = Sent to the server
page-upload-percent = { $n } % sent
page-upload-measuring = measured now…

page-now-measure = Enter a reading of the water
page-now-waits = until the water is better: { $what }
page-now-about-oxygen = oxygen
page-now-about-temperature = temperature
page-now-about-ammonia = ammonia
page-now-about-nitrite = nitrite
page-now-about-alkalinity = alkalinity
page-now-about-ph = pH
page-now-about-nitrate = nitrate
page-now-no-feed = none
page-now-no-room = none
page-now-handling = Netting, sampling, grading
page-now-no-handling = not now
page-now-read-first = Read temperature and oxygen before fish are added.
page-outlook-title = What it means
page-outlook-level = Ranges hold with { $percent } % confidence; “up to”, “within” and
    “at least” give their ends.
page-outlook-feed = Feed today
page-outlook-feed-week = { $value } in the next seven days
page-outlook-plate = Half at plate size ({ $weight })
page-outlook-in-days = { $n ->
    [one] tomorrow
   *[other] in { $n } days
    }
page-outlook-now = now
page-outlook-later = later than foreseen
page-outlook-beyond = not within two years
page-outlook-half-between = { $from } to { $to }
page-outlook-first = the first: { $date }
page-outlook-last = nearly all: { $date }
page-outlook-ready = Fish at plate size now
page-outlook-about = about { $value }
page-outlook-surely = { $value } of them for sure
page-outlook-none-sure = perhaps none: the weights are not known closely enough
page-outlook-conversion = Feed conversion ratio so far
page-outlook-condition = Condition
page-outlook-factor = condition factor { $value } ({ $low } to { $high })
page-condition-low = low
page-condition-normal = normal
page-condition-high = high
page-outlook-grade = Grading worth its handling
page-outlook-grade-at = below { $small }, above { $large }
page-outlook-limit = Limit { $name }, used
page-limit-oxygen = Oxygen supply, used
page-limit-density = Stocking density, used
page-limit-ammonia = Ammonia limit, used
page-outlook-up-to = up to { $value }
page-outlook-room = Room left
page-outlook-room-note = before the first limit
page-outlook-take-out = Fish to take out
page-outlook-take-out-note = so that no limit is passed by { $date }
page-outlook-likely = likely { $value }
page-outlook-outage = { $what }: act
page-outlook-act-within = within { $time }
page-outlook-pumped = taken as pumped: no new water in a power cut; change the unit if
    it flows by itself
page-outlook-to-critical = { $value } mg/L of oxygen, critical: likely after
    { $likely }, at most { $most }
page-outlook-to-caution = { $value } mg/L, caution: within { $time }
page-outlook-helps = { $what } buys at least { $time }
page-outlook-no-hours = { $what }: { $note }
page-outlook-not-within-a-day = not within a day
page-time-minutes = { $n } min
page-time-hours = { $hours } h { $minutes } min
page-time-day-or-more = a day or more

page-book-title = Book, { $unit }
page-book-add = New entry
page-book-empty = Nothing is entered for this unit yet.
page-entry-stocked = Stocked
page-entry-died = Died
page-entry-harvested = Harvested
page-entry-sold = Sold
page-entry-moved = Moved
page-entry-graded = Graded
page-entry-counted = Counted
page-entry-sample = Sample
page-entry-stock-measured = Fish photographed and weighed
page-entry-spawning = Ripe or spawning
page-entry-feed = Fed
page-entry-feed-bought = Feed bought
page-entry-treated = Medicine given
page-entry-water = Water reading
page-entry-cancelled = Taken back
page-entry-mean = { $value } a fish
page-entry-to = to { $unit }
page-entry-by = by { $name }
page-entry-show-sample = Photos, nets and warnings
page-grading-group = Group { $n }
page-grading-stays = Stays in { $unit }
page-grading-to_unit_id = Where it goes
page-grading-fish_count = Fish
page-grading-fish_count_sd = May be off by
page-grading-weight_kg = All together
page-grading-mean_weight_g = Each, on average
page-grading-add = Add a group
page-grading-remove = Remove group { $n }
page-grading-how = Count what goes; one weight of each group is enough, or none. Count
    what stays too if you can: then the grading counts the unit anew.
page-grading-no-other = There is no other unit for a group to go to.
page-grading-sizes = 10th percentile { $small } ({ $small_length }), 90th percentile
    { $large } ({ $large_length }).
page-grading-advised = They are far enough apart for sorting to be worth its handling.
page-grading-not-advised = They are close together: sorting is hardly worth its handling
    now.
page-grading-check = Check
page-grading-nothing-goes = Give at least one group that goes to another unit.
page-grading-same-unit = Two groups go to the same unit: make them one.
page-grading-stay-uncounted = Count those that stay too, or leave their weight empty.
page-grading-together = { $shown } fish in all; the book has { $book }.
page-grading-far = That is beyond the book's range. Count again, or look for fish that
    died or left unseen.
page-grading-rest = { $rest } stay by the book, less what goes.
page-grading-too-many = More go than the book has ({ $book }). Count again.
page-grading-mean = { $mean } a fish over all groups; the book has { $book }.
page-grading-mean-far = That is beyond the book's range. Look at the weights again.
page-grading-rest-mean = Those that stay then have { $mean } a fish.
page-grading-rest-mean-odd = The weights do not fit: { $mean } a fish would stay. Look
    at them again.
page-grading-room = { $weight } to { $unit }, which has room for { $room }.
page-grading-no-room = { $weight } to { $unit }, which has room for { $room } before its
    first limit.
page-grading-full = { $weight } to { $unit }, which is at its limit already.
page-grading-after = Sample each unit soon: sorting changes how far apart the weights
    are.
page-entry-correcting = You correct an entry. The old one stays on record, but counts no
    more.
page-entry-save = Save the entry
page-entry-save-correction = Save the correction
page-entry-take-back = Take this entry back
page-entry-take-back-sure = Take this entry back? It stays on record, but counts no
    more.
page-reading-temperature_deg_c = { $value }
page-reading-do_mg_per_l = { $value } oxygen
page-reading-ph = pH { $value }
page-reading-tan_mg_per_l = { $value } TAN
page-reading-nitrite_n_mg_per_l = { $value } nitrite-N
page-reading-nitrate_n_mg_per_l = { $value } nitrate-N
page-reading-alkalinity_mg_per_l = alkalinity { $value }
page-reading-chloride_mg_per_l = { $value } chloride

page-ask-title = Is this right?
page-ask-outside = { $entered } is entered; { $expected } is expected ({ $low } to { $high }).
page-ask-too-much = { $entered } is entered; there are { $most } by the book.
page-ask-each = { $weight } a fish
page-ask-would-fit = Were it { $what }, it would fit.
page-ask-right = It is right
page-ask-correct = Correct it
page-ask-gone = This question was answered already.
page-entry-confirmed = Asked about, and confirmed as right.

page-waiting-title = Outbox
page-waiting-count = { $n } not sent yet
page-waiting-photo = Photo, { $unit }
page-waiting-sample = Sample, { $unit }
page-waiting-kept = Everything below is kept on this phone, also when you close the
    page.
page-waiting-nothing = Everything has reached the server.
page-waiting-now = Try now
page-waiting-arrived = Arrived
page-waiting-retry = Try again
page-waiting-give-up = Give up
page-waiting-give-up-sure = Delete this from the phone? The server does not have it.

page-pair-title = Pair this phone
page-pair-how = The server lets in phones that know its code. It is shown where the
    server was started, and is good for some minutes.
page-pair-scanned = The picture has brought the code along. Give this phone a name: it stands
    beside everything that is entered with it.
page-pair-code = Code
page-pair-code-hint = Eight digits; a space does no harm.
page-pair-name = Name of this phone
page-pair-usual-name = My phone
page-pair-save = Pair
page-pair-wait = Too many tries. Wait { $n } seconds.

page-settings-title = Settings
page-settings-language = Language
page-settings-units = Units
page-settings-metric = g, kg, mm, °C, L
page-settings-imperial = oz, lb, in, °F, gal
page-settings-printed = Your printed sheet
page-settings-printed-how = Printers shrink. Measure the check line on the sheet and
    enter its length; then lengths are right.
page-settings-check-line = Check line, should be { $length }
page-settings-printed-now = New photos are measured for a print at { $percent } %.
page-settings-paper-how = Mostly the markers tell the paper. Choose it where only two of
    them are in view.
page-settings-lens = Your phone's lens
page-settings-lens-how = A profile makes lengths surer: photograph the printed board
    from several sides, run “fishmeasure lens” on the photos, and add the file here.
page-lens-usual = No profile: as phones mostly are
page-lens-every-camera = for every camera
page-lens-gone = the server does not have it
page-lens-add = Add a profile
page-lens-no-profile = { $file } is no lens profile. Make one with “fishmeasure lens”.
page-lens-replace = The server has another profile “{ $name }”. Replace it?
page-paper-seen = Told by the markers
page-paper-sheet = Sheet on { $paper }
page-how-title = Sheet and lens
page-how-paper = Printed sheet
page-how-lens = Lens profile
page-how-save = Measure with it
page-how-corrected = The photo is measured anew; what you corrected on it has to be done
    again.
page-how-markers = { $n ->
    [one] { $n } marker
   *[other] { $n } markers
    }
page-how-method-sheet = Scale from the sheet
page-how-method-loose-markers = Scale from loose cards
page-how-method-single-marker = Scale from one card
page-how-method-known-distance = Scale by hand
page-how-focal-lens-profile = lens profile { $lens }
page-how-focal-exif = focal length from the photo
page-how-focal-markers = focal length from the markers
page-how-focal-typical = a usual phone's lens
page-how-lens-unused = The lens profile “{ $lens }” is for another camera and was not
    used.
page-settings-export = Your figures
page-settings-export-how = Everything that the server has, to keep or to work on
    elsewhere.
page-settings-export-all = All (JSON)
page-settings-export-entries = Book (CSV)
page-settings-server = Server
page-settings-version = Version
page-settings-reach = Connection
page-settings-reached = reached
page-settings-not-reached = out of reach
page-settings-paired = Only paired phones
page-settings-no-pairing = no
page-settings-pair-again = Pair again
page-settings-insecure = This page came by plain HTTP: others on the same network could
    read along. It works without a network only as long as the browser keeps it, what waits
    here may be thrown away when space runs short, and the page can show no camera picture
    of its own.
page-settings-me = This phone
page-settings-kept = Kept until it is sent
page-settings-kept-yes = yes, also when space runs short
page-settings-kept-no = as long as there is space

page-role-reader = may look
page-role-worker = may enter, photograph and sample
page-role-owner = may do everything

page-roles-title = Not for this phone
page-roles-only-worker = Only a phone that may enter does this.
page-roles-only-owner = Only the owner's phone does this.
page-roles-ask = The owner can let this phone do more: Settings, “Devices”.

page-fit-title = Photograph and weigh five fish
page-fit-work = What do they teach?
page-fit-how-title = How
page-fit-how-1 = Take five fish of the sizes that you keep, fasted for a day.
page-fit-how-2 = Lay each on its side by the sheet, belly and back free, and photograph them from
    straight above; two photos are better than one.
page-fit-how-3 = Weigh each at once, wiped, to 1 g or 1 %.
page-fit-how-4 = Type each weight beside the fish's number. A fork length read on a ruler may stand
    beside it.
page-fit-cannot = No outline tells ripe fish, full guts or swollen bellies from fat fish.
page-fit-page = How, with a table, to print
page-fit-photos = Photos
page-fit-take = Photograph fish
page-fit-choose = Choose photos
page-fit-sampled = Or photos of this unit's samples:
page-fit-use = Use this photo
page-fit-picture = The photo with its fish numbered
page-fit-none = No fish of this photo can be used.
page-fit-fish = Fish { $n }, { $length }
page-fit-weight = Weight
page-fit-ruler = Fork length on a ruler
page-fit-ripe = The fish are ripe or spawning
page-fit-is-ripe = These fish may be ripe or spawning: weights by photo are less sure, and nothing
    learned is carried across spawning.
page-fit-known = Known of this stock
page-fit-known-usual = Nothing yet of your own fish: this is what is published of the species, if
    anything, with how far stocks differ.
page-fit-constant = Weight for the outline (c), g/cm³
page-fit-nothing = Choose a photo and type the weights of at least three of its fish.
page-fit-taught = What the fish teach
page-fit-after = Weight for the outline (c) of these fish, g/cm³
page-fit-before = As known before
page-fit-mean-after = Mean weight by these photos, as learned
page-fit-mean-before = By these photos as before
page-fit-left-out = One fish told by the others is off by
page-fit-by-length = by length alone { $share }
page-fit-keep = Keep it for this stock

page-devices-title = Devices
page-devices-invite = Let another phone in
page-devices-invite-how = Choose what it may do. Then hold this picture before its camera.
page-devices-invite-reader = To look
page-devices-invite-worker = To enter, photograph and sample
page-devices-invite-owner = As the owner, to do everything
page-devices-qr-alt = A picture of the address and of the code { $code }
page-devices-scan = Point the other phone's camera at it within { $n } minutes; it pairs one
    phone. Or enter this code there:
page-devices-none = No device is paired.
page-devices-this = { $name } (this phone)
page-devices-role = What it may do
page-devices-seen = Last seen
page-devices-never = not known
page-devices-today = today
page-devices-paired = Paired
page-devices-ends = Pairing ends unless used
page-devices-ended = has ended
page-devices-change = Rename, change or unpair
page-devices-name = Name
page-devices-save = Save
page-devices-unpair = Unpair
page-devices-unpair-sure = Unpair { $name }? It is let in no more. What it has entered stays.
page-devices-demote-sure = Then this phone may not change it back. Another owner's phone, or
    the code where the server was started, still can.

page-guide-title = Guide
page-guide-cautions = Cautions
page-guide-print = 1. Print the sheet
page-guide-print-alt = A sheet with a marker in each corner; a ruler lies along its
    check line of 100 mm.
page-guide-print-1 = Print at 100 %, not “fit to page”, on matt paper.
page-guide-print-2 = Measure the check line and enter its length under Settings.
page-guide-print-3 = Leave it bare: gloss and plastic covers glare. Print it anew when
    it is worn.
page-guide-print-4 = A board or tray with the four loose cards in its corners works as
    well.
page-guide-sheet-sheet = Sheet, { $paper }
page-guide-sheet-cards = Four loose cards, { $paper }
page-guide-sheet-single = One card, { $paper }
page-guide-sheet-tub = Sheet for a tub of water, { $paper }
page-guide-sheet-tub-cards = Four cards for a tub, { $paper }
page-guide-sheet-dummy = Fish of 200 mm to check with, { $paper }
page-guide-sheet-lens-board = Board to measure a lens, { $paper }
page-guide-lay = 2. Lay the fish
page-guide-lay-alt = Six fish lie apart from each other around the sheet on a wet board.
page-guide-lay-1 = Wet the board and your hands first.
page-guide-lay-2 = Lay the fish on their side, straight, apart from each other, on the
    sheet or beside it on the same surface.
page-guide-lay-3 = Leave the markers free and dry enough not to shine.
page-guide-lay-4 = A plain board of another shade than the fish is best.
page-guide-lay-5 = Photograph within seconds and put the fish back.
page-guide-above = 3. From straight above
page-guide-above-alt = A phone held flat above the sheet, 60 to 90 centimetres up; the
    fish are all in view.
page-guide-above-1 = Hold the phone flat, 60 to 90 cm above the fish.
page-guide-above-2 = Have all fish and all markers in view, nothing cut off.
page-guide-above-3 = Shade is better than sun; no flash.
page-guide-above-4 = Tap on a fish to focus, keep still.
page-guide-weigh = 4. Weigh the net
page-guide-weigh-alt = A net with fish on a hanging scale, and the same net empty and
    wet.
page-guide-weigh-1 = Lift the net, let it drip for the same time each time, say ten
    seconds.
page-guide-weigh-2 = Read the scales: net with fish.
page-guide-weigh-3 = Count the fish as they go back, twice if in doubt.
page-guide-weigh-4 = Weigh the wet net alone after the same dripping time.
page-guide-weigh-5 = Three nets or more: they show how well they agree.
page-guide-spots = 5. A fair sample
page-guide-spots-alt = A round tank seen from above; the fish are crowded behind a net
    and dipped at three places.
page-guide-spots-1 = The first net is not a fair sample: bold and hungry fish come
    first. Crowd the fish gently.
page-guide-spots-2 = Dip at several places and depths.
page-guide-spots-3 = Take every fish of a dip; do not choose.
page-guide-spots-4 = Do not feed before; sample in the cool of the morning.
page-guide-spots-5 = Stop when fish gasp or lie on their side.

page-species-rainbow-trout = Rainbow trout
page-species-arctic-char = Arctic char
page-species-atlantic-salmon = Atlantic salmon
page-species-barramundi = Barramundi
page-species-bluegill = Bluegill
page-species-brook-trout = Brook trout
page-species-brown-trout = Brown trout
page-species-channel-catfish = Channel catfish
page-species-common-carp = Common carp
page-species-grayling = Grayling
page-species-lake-trout = Lake trout
page-species-nile-tilapia = Nile tilapia
page-species-perch = Eurasian perch
page-species-pikeperch = Pikeperch
page-species-sea-bass = European sea bass
page-species-silver-perch = Silver perch
page-species-tench = Tench
