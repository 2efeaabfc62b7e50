### Lo que dice fishmeasure, en español. Los identificadores, casos y parámetros son los de
### en.ftl; allí se explica lo que significan.

## Forms: how figures, days and lists are written

day-format = dd/MM/yyyy
list-or = { $first } o { $last }
list-and = { $first } y { $last }
span = { $value } ({ $low } a { $high })
span-low = { $low } (probable { $value })
span-high = { $high } (probable { $value })
percent = { $value } %
percent-past-all = más de 999 %
fingerlings-sold = { $case ->
    [us] { $count } peces por lb, { $thousand } lb por millar
   *[metric] { $count } peces por kg, { $thousand } kg por millar
}
share-up-to = hasta { $high }
share-likely = { $high } (probable { $value })

## Units

unit-kg-per-day = kg al día
unit-lb-per-day = lb al día
unit-m3-per-day = m³ al día
unit-gal-per-day = gal al día
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
    [ENOENT] no existe el archivo o la carpeta
    [EACCES] permiso denegado
    [EPERM] operación no permitida
    [EEXIST] el archivo ya existe
    [EISDIR] es una carpeta
    [ENOTDIR] no es una carpeta
    [EINVAL] argumento no válido
    [EFBIG] archivo demasiado grande
    [ENOSPC] no queda espacio en el disco
    [EDQUOT] cuota de disco superada
    [EROFS] sistema de archivos de solo lectura
    [ENAMETOOLONG] nombre de archivo demasiado largo
    [EMFILE] demasiados archivos abiertos
    [EIO] error de entrada o salida
   *[other] { $told }
}

wanted = { $case ->
    [number] un número
    [whole-number] un número entero
    [true-or-false] true o false
    [text] texto
    [no-nul] texto sin caracteres NUL
    [unicode] texto Unicode válido
    [uuid] un UUID
    [day] una fecha
    [date] una fecha (2026-05-02)
    [time-of-day] una hora
    [time] una hora (06:30)
    [zoneless] una hora sin zona horaria
    [moment] una fecha y hora con su zona horaria
    [list] una lista
    [object] un objeto
    [array] listas de números de la forma { $shape }
    [choice] uno de { $choices }
    [yes-no] yes o no
    [known-text] como 120,80,940,85=300
    [whole] un número entero de { $least } a { $most }
   *[home] la carpeta de alguien conocido aquí
}

field-wanted = debe ser { $wanted }, no { $given }

field-limit = { $word ->
    [ge] debe ser { $limit } o más, no { $given }
    [gt] debe ser más de { $limit }, no { $given }
    [le] debe ser { $limit } o menos, no { $given }
   *[lt] debe ser menos de { $limit }, no { $given }
}

field-limit-day = { $word ->
    [ge] debe ser el { DAY($limit_on) } o después, no { $given }
    [gt] debe ser después del { DAY($limit_on) }, no { $given }
    [le] debe ser el { DAY($limit_on) } o antes, no { $given }
   *[lt] debe ser antes del { DAY($limit_on) }, no { $given }
}

field-length = { $word ->
    [max_length] debe tener como máximo { $limit } de largo, no { $length }
   *[min_length] debe tener como mínimo { $limit } de largo, no { $length }
}

field-needed = , necesario

field-range = { " " }de { $low } a { $high }

field-kind = { $case ->
    [object] objeto con { LIST($names) }
    [choice] { LIST($names, between: " o ") }
    [list] lista de ({ $each })
    [uuid] identificador
    [date] fecha
    [time] hora
    [date-time] fecha y hora
    [boolean] true o false
    [number] número
    [integer] número entero
   *[string] texto
}

field-missing = { $fields ->
    [one] falta
   *[other] faltan
}

field-unknown = no se conoce aquí{ $case ->
    [near] ; ¿quiere decir { $near }?
   *[far] {""}
}

field-other = { $told }

field-beside = está dado junto a { $other }

figure-outside = { $value } está fuera de { $low } a { $high }

figure-outside-named = { $name } { $value } está fuera de { $low } a { $high }

figures-must-rise = estos deben ir en aumento: { LIST($names) }

the-day = el día

day-outside = debe estar entre el { DAY($first_on) } y el { DAY($last_on) }, no { DAY($given_on) }

aerator-needs = de { $name } debe ser mayor que 0 para saber { $case ->
    [gas] cuánto aporta su gas
    [battery] cuánto dura su batería
   *[cylinder] cuánto dura su botella
}

species-slip = { $case ->
    [lengths] max_length_mm debe ser mayor que min_length_mm
    [standard] la longitud estándar no puede ser mayor que la furcal
   *[dome] el óptimo de una curva en campana debe estar por debajo de su temperatura máxima
}

entry-slip = { $case ->
    [nothing-learned] falta: no se aprendió nada, ni pesos ni alturas
    [which-taken-back] falta: ¿qué anotación se anula?
    [count-or-bulk] falta: indíquelo, o bulk_weight_kg y mean_weight_g
    [count-and-weight] falta, y también weight_kg
    [one-group] de una misma unidad deben indicarse como un solo grupo
    [itself] es la propia anotación
    [same-unit] es la unidad en la que ya están los peces
    [outside-weights] está fuera de mean_weight_low_g a mean_weight_high_g
    [outside-conditions] debe estar entre condition_factor_low y condition_factor_high
    [unit-empty] de la unidad está vacío
    [cohort-empty] del lote está vacío
    [months] debe tener 12 valores, uno para todo el año, o ninguno
    [withdrawal] falta: indíquelo, o withdrawal_degree_days, como diga la etiqueta o el veterinario
   *[no-figure] falta: no se ha indicado ninguna cifra
}

entry-kind = debe ser uno de { LIST($kinds) }

net-slip = { $case ->
    [only-counted] están contados, pero no hay peso, foto ni longitud
    [photo-twice] nombran una foto dos veces
    [lengths-and-photos] están junto a fotos: indique unas u otras
    [net-and-gross] está junto a gross_g: indique uno de los dos
   *[tare-alone] está sin un peso bruto
}

sample-slip = { $case ->
    [not-toml] no es TOML válido: { $told }
    [nested] sus listas están anidadas en exceso
    [digits] un número tiene miles de cifras
    [nets] no se conoce aquí; ¿quiere decir net?
    [units] está dado en { LIST($names, last: "and") }
   *[no-net] falta: un [[net]] por cada redada
}

net-label = red { $number }

net-labelled = red { $number } ({ $label })

net-lengths = son { $lengths }, pero los peces son { $fish_count }

net-tare = es { AMOUNT($tare_g) }, pero el peso bruto es { AMOUNT($gross_g) }

fish-too-heavy = es { AMOUNT($weight_g, decimals: 0) } por pez, más de { AMOUNT($limit_g, decimals: 0) }; revise la unidad

fish-too-light = es { AMOUNT($weight_g) } por pez, menos de { AMOUNT($limit_g, decimals: 4) }; revise la unidad

too-many-digits = un número de miles de cifras

record-word = { $what ->
    [unit] unidad
    [cohort] lote
    [entry] anotación
    [photo] foto
    [sample] muestra
    [device] dispositivo
    [lens] objetivo
    [species] especie
    [page] página
    [file] archivo
   *[other] { $what }
}

record-word-first = { $what ->
    [unit] Unidad
    [cohort] Lote
    [photo] Foto
    [sample] Muestra
   *[other] { $what }
}

## base: errors of records

failed =
    .meaning = No se puede dar ninguna cifra, por el motivo indicado.

bad-field = { $field } { STOP($reason) }
    .advice = Corríjalo.
    .meaning = Un registro tiene un campo inservible, desconocido o ausente.

## base: errors of the book and its files

bad-entry = El libro no puede aceptar esto: { $field } { STOP($reason) }
    .advice = Corríjalo y envíelo de nuevo.
    .meaning = Una unidad, un lote o una anotación tiene un campo inservible o ausente.

unknown-record = No está en el libro: { record-word } { $name }.
    .advice = { $case ->
        [listed] El libro tiene: { LIST($known) }.
       *[bare] {""}
    }
    .cli = { unknown-record.advice }{ $example ->
        [unit] { " " }Para añadirla: fishmeasure book add unit { SHELL($name, key: "name") } kind=… volume_m3=… depth_m=…
        [cohort] { " " }Para añadirlo: fishmeasure book add cohort { SHELL($name, key: "name") } species_key=…
       *[other] {""}
    }
    .meaning = Una unidad, un lote o una anotación no está en el libro.

future-day = { DAY($on) } está en el futuro; hoy es { DAY($today) }.
    .advice = No se ha anotado. Corrija la fecha.
    .meaning = Lo que aún no ha sucedido no se puede anotar.

no-book = No hay ningún libro en { $where }.
    .advice = Revise la ruta; con la primera unidad que se añada se crea un libro nuevo.
    .cli = { no-book.advice } Vea --book y FISHMEASURE_BOOK; 'fishmeasure book add unit' añade una.
    .meaning = No hay archivo donde se debe leer un libro.

entry-conflict = El libro ya tiene otro contenido con el identificador { $identity }: { record-word } (difiere en { LIST($differing) }).
    .advice = No se ha cambiado nada. Una corrección es una anotación nueva que sustituye a la anterior.
    .meaning = El mismo identificador se envió antes con otro contenido.

both-said = { $first } { $then }

doubtful-entry = Aún no se ha guardado: { $doubts }{ $case ->
        [slip] {" "}{ $slip }
       *[plain] {""}
    }
    .advice = Corríjalo, o diga que está bien así.
    .cli = Corríjalo, o añada --confirm si está bien así.
    .meaning = Una anotación queda lejos de lo que el libro espera, y aguarda una respuesta.

already-replaced = La anotación { $identity } ya fue sustituida por { $by }.
    .advice = Revísela; si aún es incorrecta, sustituya { $by }.
    .meaning = Otra persona corrigió o anuló antes la anotación.

version-conflict = { record-word-first } { $name } se envió como versión { $sent_version }, pero el libro tiene la versión { $newest_version }.
    .advice = Lea la versión { $newest_version }, haga allí el cambio y envíelo como versión { $next_version }.
    .meaning = Otra persona cambió antes la unidad o el lote.

name-taken = Ese nombre ya está en el libro: { record-word } { $name }.
    .advice = Elija otro.
    .meaning = Dos unidades o dos lotes no pueden llamarse igual.

book-newer = Este libro lo escribió un fishmeasure más nuevo (esquema { $revision }).
    .advice = Actualice fishmeasure para leerlo; el libro quedó como estaba.
    .meaning = El libro lo escribió una versión más nueva del programa.

book-unreadable = { $case ->
        [server] El servidor no puede abrir su libro.
       *[here] { $where } no se puede abrir como libro: { $reason }.
    }
    .advice = Revise la ruta o dirección, el espacio libre y los permisos de lectura y escritura.
    .meaning = El archivo o la dirección no es un libro, o no se puede alcanzar.

book-damaged = { $case ->
        [server] El libro del servidor está dañado.
       *[here] El libro { $where } está dañado: { $reason }.
    }
    .advice = Conserve el archivo. Restaure una copia de seguridad junto a él; una exportación puede salvar lo que quede.
    .cli = { book-damaged.advice } Vea 'fishmeasure restore' y 'fishmeasure book export'.
    .meaning = El archivo era un libro, y una parte se perdió.

book-busy = Otro programa tuvo el libro bloqueado durante { $waited_s } segundos.
    .advice = No se escribió nada. Inténtelo de nuevo.
    .meaning = Otro programa tuvo el libro bloqueado demasiado tiempo.

book-in-use = { $case ->
        [server] Un servidor en marcha u otra orden tiene abierto el libro { $where }.
       *[restore] Se está restaurando una copia de seguridad sobre el libro { $where }.
    }
    .advice = { $case ->
        [server] No se ha cambiado nada. Párelo y restaure después la copia: lo que se anotara mientras tanto se perdería.
       *[restore] Arranque el servidor cuando haya terminado.
    }
    .cli = { book-in-use.advice } { $case ->
        [server] Pare 'fishmeasure serve'.
       *[restore] Espere a 'fishmeasure restore'.
    }
    .meaning = No se puede restaurar una copia con un servidor en marcha, ni arrancar uno mientras tanto.

book-write = { $case ->
        [server] El servidor no pudo escribir en su libro.
       *[here] No se pudo escribir el libro: { $reason }.
    }
    .advice = No se guardó nada de esta anotación. Libere espacio o repare el disco y envíela de nuevo.
    .meaning = El disco o el servidor rechazó la escritura.

book-full = No se pudo escribir el libro: el disco está lleno.
    .advice = { book-write.advice }
    .meaning = No hay espacio para lo que había que escribir.

import-file = { $where } no se puede importar: { STOP($reason) }
    .advice = No se importó nada.
    .meaning = Un archivo que se quiere importar no es lo que exporta el libro.

backup = { $case ->
        [server] De un libro en PostgreSQL no se hace copia desde aquí.
        [existing] { $where } ya existe.
       *[disk] { $where } no se puede leer o escribir: { $reason }.
    }
    .advice = { $case ->
        [server] Use pg_dump para el libro y copie después la carpeta de las fotos.
        [existing] No se ha cambiado nada. Elija otro lugar.
       *[disk] Revise la ruta y el espacio libre; no se cambió ningún libro.
    }
    .cli = { $case ->
        [existing] No se ha cambiado nada. Elija otro lugar, o restaure una copia sobre un libro con --force, que conserva el antiguo al lado.
       *[other] { backup.advice }
    }
    .meaning = No se puede hacer o restaurar una copia de seguridad.

backup-damaged = { $name } no es una copia de seguridad completa: { $reason }.
    .advice = No se ha cambiado nada. Tome otra copia o una más antigua.
    .meaning = Una copia de seguridad no está como se hizo.

no-backup = { $name } no es una copia de seguridad de un libro.
    .advice = No se ha cambiado nada. Indique un archivo que se hizo como copia de seguridad.
    .cli = { no-backup.advice } 'fishmeasure backup' hace una.
    .meaning = Un archivo no es ninguna copia de seguridad.

## base: errors of the command line

option-format = { $case ->
        [empty] { $option }: no se indicó nada.
       *[unread] { $option }: { QUOTED($given) } no se puede leer.
    }
    .advice = Escríbalo así: { $example }.
    .meaning = No se puede leer el texto de una opción.

bad-option = { $option } { $value } no es { $wanted }.
    .advice = Corríjalo y ejecute la orden de nuevo.
    .meaning = Una opción o un nombre de archivo de la línea de órdenes no sirve.

no-file = No hay ningún archivo { $name }.
    .advice = Revise su nombre y su carpeta.
    .meaning = Un archivo que se nombró no está.

no-number = { QUOTED($given) } no es un número.
    .advice = Escriba cifras, como 1912 o 12,5, con una unidad donde sea otra: 4 lb 3 oz.
    .meaning = Lo que se escribió no es un número, o tiene una unidad desconocida.

unclear-number = { QUOTED($given) } se puede leer de dos maneras.
    .advice = Escriba { $whole } o { $decimal }.
    .meaning = Lo que se escribió se puede leer como dos números.

unknown-kind = El libro no tiene el tipo de anotación '{ $word }'.
    .advice = { $case ->
        [near] ¿Quiere decir { $near }?
       *[far] Hay: { LIST($known) }.
    }
    .meaning = El libro no tiene ese tipo de anotación.

unknown-code = No hay ningún código '{ $word }'.
    .advice = { $case ->
        [near] ¿Quiere decir { LIST($near, last: "or") }?
       *[far] {""}
    }
    .cli = { $case ->
        [near] ¿Quiere decir { LIST($near, last: "or") }? 'fishmeasure explain' los enumera todos.
       *[far] 'fishmeasure explain' los enumera.
    }
    .meaning = Ningún problema ni error tiene ese código.

command-line = { STOP($reason) }{ $case ->
        [near] { " " }¿Quiso decir { LIST($near, last: "or") }?
       *[far] {""}
    }
    .advice = '{ $command } --help' muestra las opciones.
    .meaning = Una orden recibió algo que no acepta, o no lo que necesita.

data-file = { $given } no es un archivo para resultados.
    .advice = Escriba --json resultados.json, o --json - para la pantalla; igual con --csv.
    .meaning = Lo que debía nombrar un archivo para resultados es otra opción, una foto o una muestra.

unknown-command = No hay ninguna orden '{ $group } { $word }'.{ $case ->
        [near] { " " }¿Quiso decir { LIST($near, last: "or") }?
       *[far] {""}
    }
    .advice = '{ $group } --help' las enumera.
    .meaning = No existe esa orden.

report-write = { $where } no se puede escribir: { $reason }.
    .advice = Haga sitio allí, o elija un lugar donde pueda escribir.
    .meaning = Lo que da una orden no se puede escribir donde se quería.

result-file = { $where } no se puede usar para resultados: { $reason }.
    .advice = Haga sitio o elija otro archivo, y ejecute la orden de nuevo: sigue donde estaba.
    .meaning = Los resultados de muchas fotos no se pueden guardar en el archivo o leer de él.

cluster-lost = El planificador de dask en { $address } ha desaparecido.
    .advice = Arránquelo y ejecute la orden de nuevo: sigue donde estaba.
    .meaning = El planificador de un clúster desapareció mientras se medían fotos.

## base: errors of photos

bad-correction = La corrección { $number } no se puede hacer: { $reason }.
    .advice = Cargue la foto de nuevo y repítala.
    .meaning = La corrección a mano de una foto no se puede hacer.

not-an-image = { $case ->
        [reason] { $name } no es una imagen que se pueda leer ({ $reason }).
        [file] { $name } no se midió: { $reason }.
        [folder] { $name } no se midió: { $reason }.
       *[plain] { $name } no es una imagen que se pueda leer.
    }
    .advice = { $case ->
        [file] Revise el nombre del archivo.
        [folder] Nombre sus fotos.
       *[other] Envíe la foto como la guardó el teléfono: JPEG, PNG, WebP o HEIC.
    }
    .cli = { $case ->
        [folder] Nombre sus fotos, o use 'fishmeasure batch' para una carpeta entera.
       *[other] { not-an-image.advice }
    }
    .meaning = El archivo no está o no se puede leer.

too-large = { $case ->
        [upload] El envío pasa de { NUMBER($limit_mb, decimals: 0) } MB.
        [request] La petición pasa de { NUMBER($limit_mb, decimals: 0) } MB.
        [values] La petición contiene más de { $limit } valores.
        [memory] La foto necesita más de los { NUMBER($limit_mb, decimals: 0) } MB de memoria que el servidor da a una.
       *[photo] { $name } es demasiado grande: { $size }, el límite es { $limit }.
    }
    .advice = { $case ->
        [upload] Envíe menos fotos a la vez, cada una como la guardó el teléfono.
        [request] Envíelo en varias partes.
        [values] Envíelo en varias partes.
        [memory] Hágala con el ajuste normal del teléfono y envíela como JPEG.
       *[photo] Hágala con el ajuste normal del teléfono, no como panorama ni escaneado.
    }
    .meaning = Una foto supera el límite en bytes o píxeles, o una petición es demasiado grande.

too-small = { $name } tiene solo { $width_px } x { $height_px } píxeles.
    .advice = Envíe la foto original, no una vista previa ni un recorte.
    .meaning = La foto tiene muy pocos píxeles para dar cifras.

not-drawn = No se dibujó ninguna imagen de { $name }: con { $width_px } x { $height_px } píxeles es demasiado larga y estrecha para rótulos que se puedan leer.
    .advice = Envíe la foto como la hizo el teléfono, no una tira de ella.
    .meaning = La foto es demasiado larga y estrecha para una imagen con sus peces dibujados.

## base: errors of markers and lenses

lens-file = { $case ->
        [field] { $name } no se puede usar como perfil de objetivo: { $field } { STOP($reason) }
       *[whole] { $name } no se puede usar como perfil de objetivo: { STOP($reason) }
    }
    .advice = Haga uno con fotos del tablero de objetivo impreso.
    .cli = { lens-file.advice } 'fishmeasure lens' hace uno.
    .meaning = El archivo no es un perfil de objetivo.

lens-photos = { $case ->
        [mixed] Estas fotos no son de una sola cámara a un solo tamaño, así que no dan ningún perfil.
        [few] El tablero se ve bien en { $found } de { $given } fotos; hacen falta { $needed }.
        [misfit] Las fotos del tablero no corresponden a un solo objetivo (desviación de { NUMBER($rms_px, decimals: 1) } píxeles).
       *[alike] Las fotos del tablero son demasiado parecidas para conocer la distancia focal.
    }
    .advice = { $case ->
        [mixed] Use fotos hechas con el mismo teléfono, objetivo y ajuste.
        [few] Haga más fotos del tablero impreso, plano y nítido.
        [misfit] Pegue el tablero sobre algo plano, sujete quieto el teléfono, no use el zoom.
       *[alike] Incline el teléfono de 20 a 40 grados a cada lado en algunas.
    }
    .meaning = Las fotos del tablero no dan ningún perfil de objetivo.

no-marker = No se ve ningún marcador en { $name }, así que nada da su escala.
    .advice = Ponga la hoja o el marcador impreso plano junto a los peces, entero a la vista y seco, y haga la foto de nuevo.
    .meaning = No se encontró ningún marcador impreso, o ninguno de este programa.

several-sheets = { $name } muestra el marcador { LIST($marker_ids) } más de una vez.
    .advice = Deje a la vista una sola hoja, o una de cada tarjeta.
    .meaning = El mismo marcador está dos veces en la foto.

markers-disagree = Los marcadores de { $name } no caben en un plano (desviación de { AMOUNT($rms_mm, decimals: 1) }).
    .advice = Use marcadores de una sola impresión a una sola escala, y póngalos todos planos sobre la superficie en la que están los peces.
    .meaning = Los marcadores no están en un plano con sus tamaños impresos.

tilted = { $case ->
        [doubtful] Hecha a { NUMBER($tilt_deg, decimals: 0) } grados de la vertical; las longitudes son menos seguras.
       *[refused] { $name } se hizo a { NUMBER($tilt_deg, decimals: 0) } grados de la vertical; por encima de { NUMBER($limit_deg, decimals: 0) } ninguna longitud es fiable.
    }
    .advice = { $case ->
        [doubtful] Sujete el teléfono horizontal sobre los peces.
       *[refused] Sujete el teléfono horizontal, en vertical sobre los peces.
    }
    .meaning = Hecha en oblicuo: medida con más error, o rechazada a partir de un límite.

blurred = { $case ->
        [doubtful] Borrosa: un borde se extiende unos { AMOUNT($edge_mm, decimals: 0) }.
        [whole] La foto está borrosa.
       *[refused] { $name } está borrosa: un borde se extiende unos { AMOUNT($edge_mm, decimals: 0) }.
    }
    .advice = { $case ->
        [doubtful] Sujete quieto el teléfono, toque el pez para enfocar, limpie el objetivo.
       *[refused] Sujete quieto el teléfono, toque el pez para enfocar, use más luz, limpie el objetivo.
    }
    .meaning = Borrosa: medida con más error, o rechazada a partir de un límite.

too-far = { $case ->
        [doubtful] Los marcadores se ven pequeños en la foto, así que la escala es menos segura.
       *[refused] El marcador de { $name } mide solo { NUMBER($side_px, decimals: 0) } píxeles de ancho; hacen falta { NUMBER($limit_px, decimals: 0) }.
    }
    .advice = { $case ->
       *[refused] Acérquese, o envíe la foto a tamaño completo.
    }
    .meaning = El marcador se ve pequeño en la foto: medida con más error, o rechazada.

known-distance = Los dos puntos de { $name } no pueden dar una escala: distan { NUMBER($distance_px, decimals: 0) } píxeles; hacen falta { NUMBER($limit_px, decimals: 0) }, ambos dentro de la foto, y una longitud mayor de 0 mm.
    .advice = Indique dos puntos de la foto, muy separados, y los milímetros entre ellos.
    .meaning = Los dos puntos de una distancia conocida no sirven.

print-scale = La escala de impresión { $reason }.
    .advice = Mida la línea de control de la hoja e indique sus mm divididos por 100: 0.97 para 97 mm.
    .meaning = Ninguna hoja se imprime a esa escala.

## base: errors of samples

sample-file = { $case ->
        [place] La muestra no se puede usar: { $place } { STOP($reason) }
       *[whole] La muestra no se puede usar: { STOP($reason) }
    }
    .advice = Corrija eso; el README muestra un archivo completo.
    .meaning = La muestra no se puede leer, o no sigue su formato.

empty-sample = Ninguna red tiene un peso ni un pez cuya longitud se pueda usar.
    .advice = Pese al menos una red contada, o fotografíe sus peces.
    .meaning = Ninguna red tiene un peso ni un pez medido.

length-weight-data = No se puede ajustar una relación talla-peso: { $reason }.
    .advice = Pese y mida de 20 a 30 peces uno a uno, pequeños y grandes.
    .meaning = No se puede ajustar nada a las longitudes y pesos individuales.

heights = { $case ->
        [few] { $fish ->
            [one] 1 pez tiene una longitud leída con regla
           *[other] { $fish } peces tienen una longitud leída con regla
        }: hacen falta { $needed } para conocer la altura de hocicos y horquillas.
        [off] El pez { $fish }, en { $photo }, mide { AMOUNT($ruler_mm, decimals: 0) } con la regla y { AMOUNT($length_mm, decimals: 0) } según la foto: más de lo que explican las alturas de hocico y horquilla.
       *[untold] Estos { $fish } peces no dicen a qué altura están hocicos y horquillas. Tienen { AMOUNT($thickness_mm, decimals: 0) } de grosor y se ven desde { AMOUNT($camera_mm, decimals: 0) }: su longitud cambiaría un { PERCENT($share, decimals: 1) }, menos de lo que aseguran impresión, objetivo y extremos.
    }
    .advice = { $case ->
        [few] Fotografíe algunos peces más y lea la longitud furcal de cada uno.
        [off] Revise el número del pez, la longitud leída y si el marcador se imprimió a su tamaño.
       *[untold] Haga las fotos desde más cerca, de peces más gruesos, y mida la escala de impresión.
    }
    .meaning = Las longitudes con regla no dicen a qué altura están hocicos y horquillas.

plan = { $case ->
        [range] La media no se puede planificar con un margen de { $half_width_percent } % con { $fish_per_net } peces por red.
       *[reach] ± { $half_width_percent } % no se puede lograr: { $nets } redes dejarían aún ± { NUMBER($reached_percent, decimals: 1) } %.
    }
    .advice = { $case ->
        [range] Indique una anchura mayor que 0 y menor que 100 %, y al menos un pez por red.
       *[reach] Pida un intervalo más ancho, o reduzca antes el agua de escurrido y el error de la balanza.
    }
    .meaning = Ningún plan de muestreo da lo que se pidió.

sample-not-entered = La muestra no se anota en el libro: sus pesos y longitudes no pueden ser de los mismos peces.
    .advice = Corríjala primero.
    .meaning = No se anota una muestra cuyos pesos y longitudes no son de los mismos peces.

other-species = { $case ->
        [deeper] Estos peces son más altos que { $species }: altura { NUMBER($depth, decimals: 2) } de su longitud, cuando lo usual es { NUMBER($usual_depth, decimals: 2) }{ ASKED($others) }
        [slimmer] Estos peces son más esbeltos que { $species }: altura { NUMBER($depth, decimals: 2) } de su longitud, cuando lo usual es { NUMBER($usual_depth, decimals: 2) }{ ASKED($others) }
       *[cohort] La muestra es de { $species }, el lote { $cohort } de { $of_cohort }. No se ha anotado.
    }
    .advice = { $case ->
        [deeper] Si son de otra especie, indíquela y mida de nuevo, pues los pesos serían los de otro pez; si no, revise los contornos.
        [slimmer] Si son de otra especie, indíquela y mida de nuevo, pues los pesos serían los de otro pez; si no, revise los contornos.
       *[cohort] Si los peces son { $of_cohort }, escriba species = "{ $of_cohort }" en la muestra y hágala medir de nuevo; si no, indique otro lote.
    }
    .meaning = Los peces son más altos o más esbeltos que la especie indicada, o una muestra es de otra especie que su lote.

sample-elsewhere = El libro ya tiene esta muestra, del { DAY($day) } en { $unit }. No se ha cambiado nada.
    .advice = Si eso es incorrecto, corrija la anotación.
    .cli = Si eso es incorrecto: fishmeasure book correct { $identity } { $change }
    .meaning = El libro tiene la muestra en otro día o en otra unidad.

sample-json = { $name } no contiene el JSON de una muestra.
    .advice = Indique los resultados de una muestra como JSON.
    .cli = Se hace con: fishmeasure sample SAMPLE.toml --json ARCHIVO.
    .meaning = Un archivo que debía contener el JSON de una muestra no lo contiene.

## base: errors of species

unknown-species = No hay ninguna especie "{ $name }".
    .advice = { $case ->
        [near] ¿Quiere decir { LIST($close, last: "or") }?
       *[far] Se conocen: { LIST($known) }. Para otro pez indique su propio archivo, como mystock.toml.
    }
    .meaning = Ninguna especie tiene ese nombre.

species-file = { $case ->
        [key] Archivo de especie { $file_name }, { $key }: { STOP($reason) }
       *[whole] Archivo de especie { $file_name }: { STOP($reason) }
    }
    .advice = Corrija el archivo; el README muestra su formato.
    .meaning = Un archivo de especie no se puede leer o no sigue su formato.

## base: errors of stocking calculations

no-stock-figures = No hay cifras de crecimiento, alimento y oxígeno para { QUOTED($species_key) }.
    .advice = Use una de: { LIST($known) }.
    .meaning = No hay cifras de cultivo para la especie.

outside-range = { $case ->
        [overflow] Estas cifras son demasiado grandes, o demasiado próximas a 0, para calcular con ellas.
       *[other] { $name }: { $value }{ $unit } no puede ser.
    }
    .advice = { $case ->
        [overflow] Indique cifras de peces y agua reales en las unidades de los nombres de los campos.
        [least] Indique un valor de al menos { $low }{ $unit }.
       *[range] Indique un valor de { $low } a { $high }{ $unit }.
    }
    .meaning = Una cifra indicada está fuera de lo que admite el cálculo.

no-samples = No hay ningún muestreo de peso del que partir.
    .advice = Anote el peso en la siembra o tome una muestra con red.
    .meaning = No hay ningún peso del que partir.

weekly-harvest = Una cosecha semanal toma tantos peces, tantos kilogramos o todos los que alcancen una talla.
    .advice = Indique una de las tres cosas.
    .meaning = Una cosecha semanal no es de peces, de kilogramos ni de una talla.

gain-not-known = La ganancia de { AMOUNT($gain_kg, decimals: 1) } (error estándar { AMOUNT($sd_kg, decimals: 1) }) no difiere significativamente de cero, así que no se puede dar un factor de conversión.
    .advice = Espere a que crezcan más, o pese más redes en ambos extremos del periodo.
    .meaning = La ganancia no difiere significativamente de cero: no hay factor de conversión.

## husbandry: names of figures, limits, things and fish

quantity = { $key ->
    [water-temperature] temperatura del agua
    [air-pressure] presión del aire
    [altitude] altitud
    [amplitude-of-the-wave] amplitud de la curva anual
    [biomass] biomasa
    [coefficient-of-variation] coeficiente de variación
    [condition-factor] factor de condición
    [date] fecha
    [days-ahead] días por delante
    [days-after-the-start] días desde el inicio
    [days-between-the-samples] días entre los muestreos
    [days-of-feed] días de alimento
    [days-until-the-date] días hasta la fecha
    [density-index] índice de densidad
    [flow-index] índice de flujo
    [depth-of-the-diffuser] profundidad del difusor
    [start-weight] peso inicial
    [end-weight] peso final
    [feed-protein] proteína del alimento
    [feed] alimento
    [fish-a-week] peces por semana
    [gas-through-the-diffuser] gas por el difusor
    [harvest-of-a-week] cosecha de una semana
    [hours] horas
    [inflow] caudal de entrada
    [its-standard-error] su error estándar
    [length] longitud
    [mean-weight] peso medio
    [nitrate-at-the-start] nitrato al inicio
    [number-of-fish] número de peces
    [number-of-groups-of-fish] número de grupos de peces
    [number-to-take] número de peces que se toman
    [oxygen-above-the-caution-level] oxígeno por encima del nivel de alerta
    [oxygen-at-the-start] oxígeno al inicio
    [oxygen-level] nivel de oxígeno
    [plant-bed] cama de plantas
    [power-of-the-paddlewheel] potencia del aireador de paletas
    [salinity] salinidad
    [share-of-fish-taken-out] proporción de peces retirados
    [size] talla
    [standard-error] error estándar
    [standard-oxygen-transfer-rate] tasa estándar de transferencia de oxígeno
    [surface] superficie
    [time-from-the-first-to-the-last-harvest] tiempo de la primera a la última cosecha
    [total-ammonia-nitrogen] nitrógeno amoniacal total
    [warmest-day-of-the-year] día más cálido del año
    [warmest-forecast-temperature] temperatura prevista más alta
    [water-exchange] recambio de agua
    [water-volume] volumen de agua
    [weight-added] peso añadido
    [weight-of-the-dead] peso de los muertos
    [weight-of-the-fingerlings] peso de los alevines
    [weight-removed] peso retirado
    [wind] viento
   *[other] { $name }
}

limit-name = { $case ->
        [density-index] Índice de densidad
        [flow-index] Índice de flujo
        [density] Densidad de cultivo
        [oxygen] Oxígeno
       *[ammonia] Amoníaco
    }

fish = { $case ->
        [own] los peces de esta unidad
        [food] peces de consumo
       *[any] peces
    }

nothing = {""}

as-said = { $text }

## husbandry: the water now

now = { $case ->
        [act] Actúe ahora. { $reason }
        [watch] Vigile el agua. { $reason }
        [unknown] No se conoce el estado del agua. { $reason }
       *[good] El agua es buena, según lo medido, para { LIST($fish, last: "and") }.
    }

do-now = { STEPS($steps) }

step = { $case ->
        [more-air] dé más aire u oxígeno
        [less-gas] deje salir el gas: haga caer el agua de entrada por un escalón o por una columna, corte el oxígeno y busque aire que aspire una bomba
        [cooler] traiga agua más fresca y dé sombra a la unidad
        [warmer] traiga agua más templada, despacio
        [no-feed] no dé alimento
        [no-handling] no pesque, muestree, clasifique ni traslade peces
        [exchange] cambie agua por agua buena
        [buffer] suba la alcalinidad poco a poco, con bicarbonato de sodio o caliza triturada, y siga el pH: el amoníaco daña más cuando sube
        [measure] mida de nuevo pronto y anótelo
       *[professional] si no mejora, llame a un profesional de sanidad de peces
    }

read-when = { $case ->
        [days] medido hace { $days } días
        [yesterday] medido ayer
        [yesterday-at] medido ayer a las { $at }
        [today-at] medido hoy a las { $at }
       *[today] medido hoy
    }

own-limit = Límite fijado para esta unidad.

reading-keeps = { $case ->
        [its-day] Una medida vale para su día: práctica común, sin fuente.
        [next-day] Una medida vale para su día y el siguiente: práctica común, sin fuente.
       *[days] Una medida vale { $days } días más: práctica común, sin fuente.
    }

oxygen-low = { $case ->
        [act] El oxígeno es { AMOUNT($read_mg_per_l) } ({ $when }), por debajo de { AMOUNT($limit_mg_per_l) }, donde pueden morir { $whose }.
       *[watch] El oxígeno es { AMOUNT($read_mg_per_l) } ({ $when }), por debajo de los { AMOUNT($limit_mg_per_l) } que deben tener { $whose }.
    }
    .advice = { $do_now }
    .meaning = El agua ahora: muy poco oxígeno; vigilar o actuar.

oxygen-supersaturated = El oxígeno es { AMOUNT($read_mg_per_l) } ({ $when }), { AMOUNT($saturation_percent, decimals: 0) } de saturación, por encima de { AMOUNT($limit_percent) }: pueden formarse burbujas de gas en los peces.
    .advice = { $do_now }
    .meaning = El agua ahora: demasiado gas; vigilar o actuar.

oxygen-unknown = { $case ->
        [never] El oxígeno no se ha medido nunca. Mídalo ahora y anótelo.
       *[old] Último oxígeno: { $when } ({ AMOUNT($do_mg_per_l) }), hace demasiado para decir que el agua es buena. Mídalo ahora y anótelo.
    }
    .meaning = El oxígeno no se ha medido últimamente.

temperature-high = { $case ->
        [act] El agua está a { AMOUNT($water_deg_c) } ({ $when }), demasiado cálida: desde { AMOUNT($limit_deg_c) } mueren algunos ({ $whose }).
       *[watch] El agua está a { AMOUNT($water_deg_c) } ({ $when }), por encima de los { AMOUNT($limit_deg_c) } hasta los que comen bien y soportan el manejo { $whose }.
    }
    .advice = { $do_now }
    .meaning = El agua ahora: demasiado cálida; vigilar o actuar.

temperature-low = { $case ->
        [act] El agua está a { AMOUNT($water_deg_c) } ({ $when }), demasiado fría: por debajo de { AMOUNT($limit_deg_c) } mueren algunos ({ $whose }).
       *[watch] El agua está a { AMOUNT($water_deg_c) } ({ $when }), por debajo de los { AMOUNT($limit_deg_c) } desde los que comen bien y soportan el manejo { $whose }.
    }
    .advice = { $do_now }
    .meaning = El agua ahora: demasiado fría; vigilar o actuar.

temperature-unknown = { $case ->
        [assumed] No se sabe nada de la temperatura del agua en { $unit }; se suponen { AMOUNT($temperature_deg_c) }. Anote medidas, o la temperatura de la unidad en cada mes.
        [never] La temperatura del agua no se ha medido nunca. Mídala ahora y anótela.
       *[old] Última temperatura del agua: { $when } ({ AMOUNT($temperature_deg_c) }), hace demasiado para decir que el agua es buena. Mídala ahora y anótela.
    }
    .meaning = No se conoce la temperatura del agua de la unidad.

ammonia-read = El amonio total es { AMOUNT($tan_mg_per_l) } como N a pH { $ph } y { AMOUNT($water_deg_c, digits: 3) } ({ $when })

ammonia-high = { $case ->
        [unionised] { $base }, lo que da { AMOUNT($unionised_mg_per_l, digits: 2) } de amoníaco no ionizado, más de los { AMOUNT($limit_mg_per_l) } que soportan { $whose }.
        [acute] { $base }, por encima del criterio agudo de { AMOUNT($limit_mg_per_l, digits: 2) }.
       *[chronic] { $base }, por encima del criterio crónico de { AMOUNT($limit_mg_per_l, digits: 2) }, que protege también a los mejillones de río y por eso es estricto para los peces.
    }
    .advice = { $do_now }
    .meaning = El agua ahora: demasiado amoníaco; vigilar o actuar.

ammonia-unknown = No se conoce el amoníaco, y en agua que vuelve a los peces puede subir sin que se vea. Mida el amonio total (TAN) y el pH.
    .meaning = No se conoce el amoníaco, donde debe conocerse.

nitrite-high = { $case ->
        [read] El nitrito es { AMOUNT($read_mg_per_l) } como N ({ $when }), por encima de los { AMOUNT($limit_mg_per_l, digits: 2) } para { $whose }, en agua con { AMOUNT($chloride_mg_per_l) } de cloruro ({ $chloride_when }).
       *[guessed] El nitrito es { AMOUNT($read_mg_per_l) } como N ({ $when }), por encima de los { AMOUNT($limit_mg_per_l, digits: 2) } para { $whose }, en agua con 10 mg/L de cloruro; el suyo no se midió, y con menos cloruro el nitrito daña más.
    }
    .advice = { $do_now }
    .meaning = El agua ahora: demasiado nitrito; vigilar o actuar.

nitrate-high = El nitrato es { AMOUNT($read_mg_per_l) } como N ({ $when }), por encima de los { AMOUNT($limit_mg_per_l, digits: 2) } para { $whose }.
    .advice = { $do_now }
    .meaning = El agua ahora: demasiado nitrato.

alkalinity-low = La alcalinidad es { AMOUNT($read_mg_per_l) } como CaCO3 ({ $when }), por debajo de { AMOUNT($limit_mg_per_l) }: el biofiltro la consume, después baja el pH y sube el amonio.
    .advice = { $do_now }
    .meaning = El agua ahora: muy poca reserva alcalina para un biofiltro; vigilar.

ph-high = { $case ->
        [act] El pH es { $ph } ({ $when }), por encima de { $limit }, lo que daña a { $whose }.
       *[watch] El pH es { $ph } ({ $when }), por encima de { $limit }, fuera de lo que conviene a { $whose }.
    }
    .advice = { $do_now }
    .meaning = El agua ahora: demasiado alcalina; vigilar o actuar.

ph-low = { $case ->
        [act] El pH es { $ph } ({ $when }), por debajo de { $limit }, lo que daña a { $whose }.
       *[watch] El pH es { $ph } ({ $when }), por debajo de { $limit }, fuera de lo que conviene a { $whose }.
    }
    .advice = { $do_now }
    .meaning = El agua ahora: demasiado ácida; vigilar o actuar.

not-judged = { $case ->
        [ammonia-reading] Amoníaco sin valorar: no se ha medido últimamente: { LIST($lacking, last: "and") }.
        [ammonia-temperature] Amoníaco sin valorar: no se conoce la temperatura del agua.
        [ammonia-salt] El amoníaco en agua salada se valora con las cifras del agua dulce, que son estrictas para ella.
        [salt] No se valora si los peces soportan { AMOUNT($salinity_g_per_kg) } de sal.
        [gas] No se valora si el agua tiene demasiado gas: no se conoce su temperatura.
        [dawn] El oxígeno de un estanque es mínimo antes de salir el sol; mídalo también entonces.
        [chloride] El nitrito se valora como en agua con 10 mg/L de cloruro, que no se ha medido últimamente; con menos, los peces soportan menos nitrito.
        [nitrite] Nitrito sin valorar: no se ha medido últimamente.
        [alkalinity] Alcalinidad sin valorar: no se ha medido últimamente.
       *[alkalinity-elsewhere] Alcalinidad sin valorar: se valora donde el agua vuelve a los peces a través de un filtro.
    }

note-alkalinity = 20 mg/L como CaCO3, práctica común, sin fuente; el amonio en circuitos de salmón fue menor cuanto mayor era, con 10, 70 y 200 mg/L: Summerfelt et al. 2015 Aquac Eng 65:46-54, resumen

## husbandry: feed, growth, limits

outside-source-range = { $name }: { NUMBER($value, atMost: 4) } { $unit } está fuera del intervalo de la fuente, { $low } a { $high } { $unit }; tome la cifra como orientación.
    .meaning = Un cálculo está fuera del intervalo de su fuente.

too-warm-to-feed = A { AMOUNT($water_deg_c, decimals: 1) } no se da ración para esta especie, que se alimenta hasta { AMOUNT($limit_deg_c) }.{ $deadly ->
        [yes] { " " }En agua así han muerto peces de esta especie.
       *[no] {""}
    } Deje de alimentar, vigile el oxígeno y vuelva a alimentar cuando el agua se haya enfriado.
    .meaning = El agua está demasiado cálida para alimentar.

too-cold-to-feed = A { AMOUNT($water_deg_c, decimals: 1) } no se da ración para esta especie, que se alimenta desde { AMOUNT($limit_deg_c) }.{ $deadly ->
        [yes] { " " }En agua así han muerto peces de esta especie.
       *[no] {""}
    } Deje de alimentar y deje tranquilos a los peces hasta que el agua esté más templada.
    .meaning = El agua está demasiado fría para alimentar.

no-growth-temperature = En { $idle_days } de los próximos { $days } días se prevé el agua fuera de { NUMBER($low_deg_c) } a { AMOUNT($high_deg_c) }, donde come esta especie; en ellos no se cuenta crecimiento. Pese una muestra cuando los peces vuelvan a comer.
    .meaning = Parte de la previsión es demasiado fría o cálida para crecer.

no-stocking-temperature = El agua está a { AMOUNT($water_deg_c, decimals: 1) }; los peces de aquí comen de { NUMBER($low_deg_c) } a { AMOUNT($high_deg_c) }. No añada peces, no los maneje y pregunte de nuevo cuando el agua esté en ese intervalo.
    .meaning = El agua está demasiado fría o cálida para añadir peces.

sample-disagrees = { $case ->
        [above] La muestra del { DAY($on) } está { NUMBER($standard_errors, decimals: 1) } errores estándar por encima de lo que anuncian las anteriores.
       *[below] La muestra del { DAY($on) } está { NUMBER($standard_errors, decimals: 1) } errores estándar por debajo de lo que anuncian las anteriores.
    }
    .advice = Revise la pesada, el recuento y qué peces se pescaron.
    .meaning = Una muestra no concuerda con el libro.

over-limit = { $limit }: se usa el { PERCENT($used) } del límite, puede ser el { PERCENT($used_at_most) }.
    .advice = Alimente menos, refuerce lo que limita o mantenga menos peces.
    .meaning = Es probable que se haya pasado un límite de la unidad.

near-limit = { $limit }: se usa el { PERCENT($used) } del límite, puede ser el { PERCENT($used_at_most) }.
    .advice = Alimente menos, refuerce lo que limita o mantenga menos peces.
    .meaning = Puede haberse pasado un límite de la unidad, en el extremo inseguro.

ammonia-over-limit = El amoníaco no ionizado puede llegar a { AMOUNT($most_mg_per_l, decimals: 3) }, por encima del límite de { NUMBER($limit_mg_per_l) }.
    .advice = Deje de alimentar, cambie agua y mida de nuevo.
    .meaning = El amoníaco no ionizado supera el límite de la especie.

ammonia-over-criterion = El nitrógeno amoniacal total puede ser { AMOUNT($most_mg_per_l, atMost: 2) }, por encima de los { AMOUNT($criterion_mg_per_l, atMost: 2) } que pueden durar a pH { $ph } y { AMOUNT($water_deg_c) } (US EPA 2013, que protege también a los mejillones de río).
    .advice = Alimente menos, cambie agua y mida de nuevo.
    .meaning = El amonio total supera lo que puede durar a este pH.

nitrate-over-limit = El nitrato puede estar ya por encima del límite de { AMOUNT($limit_mg_per_l) } como N.
    .advice = Cambie más agua, alimente menos o añada plantas.
    .meaning = El nitrato puede superar su límite.

nitrate-limit-ahead = El nitrato puede superar el límite de { AMOUNT($limit_mg_per_l) } como N en { $days } días.
    .advice = Cambie más agua, alimente menos o añada plantas.
    .meaning = El nitrato puede alcanzar su límite en el tiempo considerado.

## husbandry: where figures come from

note-feed-chart = Ración de la tabla de truchas de Leitritz & Lewis 1980 (Calif. Fish Bull. 164): alimento seco, líneas rectas entre sus celdas.
note-feeding-ends = Se alimenta hasta { AMOUNT($end_deg_c) }
note-ration-by-growth = Ración = crecimiento esperado x conversión, sin tabla de esta especie.
note-feed-conversion = Factor de conversión alimenticia { $fcr }
note-feed-weighed = El alimento dado se toma como pesado exactamente.
note-tgc = TGC { $tgc }
note-published-tgc = TGC publicado { $tgc }
note-growth = { $case ->
        [published] Crecimiento según lo publicado: hay un solo muestreo. { $start }
       *[fitted] Crecimiento ajustado a { $samples } muestreos de este lote, partiendo de la cifra publicada. { $start }
    }
note-unionised-share = Fracción no ionizada: Emerson et al. 1975, agua dulce; pH a 0,1.
note-unionised-in-salt = En agua salada la fracción no ionizada es menor; este es el lado seguro.
note-ammonia-limit = Límite de { AMOUNT($limit_mg_per_l) } de nitrógeno de amoníaco no ionizado
note-ammonia-criteria = Criterios de amonio total: US EPA 2013 (822-R-13-001); el crónico es una media de 30 días y protege también a los mejillones de río, que soportan menos que los peces.
note-nitrate-limit = Límite de { AMOUNT($limit_mg_per_l) } de nitrógeno de nitrato
note-feed-nitrogen = Nitrógeno del alimento: 0,092 a 0,128 de su proteína, Timmons & Ebeling en una página ajena; se mantienen ambas reglas.
note-plant-uptake = La absorción de las plantas se calcula del alimento que sostiene una cama llena en crecimiento; no se encontró cifra de absorción.
note-feed-per-bed = Alimento por superficie de cama: FAO Technical Paper 589 y Rakocy 2007, que difieren hasta en el doble.
note-density-limit = Límite de densidad { AMOUNT($limit_kg_per_m3) }
note-own-density = Límite de densidad fijado para la unidad.
note-density-index = Índice de densidad 0,5 lb/ft3 por pulgada: Piper et al. 1982; SRAC 222 hasta 1,0.
note-flow-index = Índice de flujo 1,0 lb/(in gpm): SRAC 222 da 0,5-1,0, Piper et al. 1982 1,5 a 10 °C. El oxígeno, calculado aparte, es mejor guía.
note-feed-for-ammonia = Alimento para el límite de amoníaco a pH { $ph }, el más estricto entre el de la especie y el criterio. { $criteria } { $nitrogen }
kept-oxygen = { $case ->
        [own] fijado para la unidad
        [rule] { AMOUNT($saturation_percent) } de saturación, { $source }
       *[caution] el nivel de alerta de la especie más exigente
    }
note-oxygen-supply = { $case ->
        [read] Aporte de oxígeno a { AMOUNT($kept_mg_per_l, atMost: 3) } ({ $why }) frente a peces alimentados, su consumo también según medidas.
       *[published] Aporte de oxígeno a { AMOUNT($kept_mg_per_l, atMost: 3) } ({ $why }) frente a peces alimentados.
    }
note-oxygen-use = Consumo de oxígeno de peces en ayuno
note-fed-factor = El factor { $factor } después de comer
note-drawn-up = Balance a { AMOUNT($kept_mg_per_l) }; alerta { NUMBER($caution_mg_per_l) }
note-still-surface = Superficie de agua quieta: las fuentes discrepan, 0 a 0,6 m/d; se mantiene todo.
note-inflow-saturation = El agua de entrada sin medida se toma como saturada al { PERCENT($share) }, práctica común sin fuente.
note-alpha-beta = Aireadores en agua de peces: alfa 0,8 y beta 0,95, si no se indican, son práctica común sin fuente.
note-recirculated = Se supone que el agua recirculada vuelve saturada al 95 %. Un filtro sumergido consume oxígeno él mismo (4,57 g por cada g de nitrógeno amoniacal, por estequiometría), que no se cuenta: mida lo que vuelve.
note-gas-transfer = { $case ->
        [fine] Gas por litros: se absorbe { AMOUNT($each_percent) } de su oxígeno por metro de profundidad (burbujas finas), extremos bajos de ensayos en agua limpia de EPA 1989, de memoria y sin comprobar en su fuente.
        [medium] Gas por litros: se absorbe { AMOUNT($each_percent) } de su oxígeno por metro de profundidad (burbujas medianas), extremos bajos de ensayos en agua limpia de EPA 1989, de memoria y sin comprobar en su fuente.
       *[coarse] Gas por litros: se absorbe { AMOUNT($each_percent) } de su oxígeno por metro de profundidad (burbujas gruesas), extremos bajos de ensayos en agua limpia de EPA 1989, de memoria y sin comprobar en su fuente.
    }
note-paddlewheel = Aireadores de paletas: { $kg_per_kwh } kg de oxígeno por kWh, media de 1,1 a 3,0 en Boyd 1998, de memoria y sin comprobar en su fuente.

## husbandry: what if something stops

stop = { $case ->
        [power] Corte de luz
        [pump] Se para la bomba
        [intake] Toma o reja obstruida, o corte del suministro
        [one-blower] Se para { $device }
        [blower] Se paran todos los aireadores
        [device] Se para solo { $device }
       *[oxygen] Reserva de oxígeno agotada
    }
duration = { $case ->
        [day] 24 h o más
        [hours] { $hours } h { $minutes } min
       *[minutes] { $minutes } min
    }
time = { $case ->
        [at-once] de inmediato
        [never] no en 24 h
        [sure] después de { $low }
        [likely-never] { $soon ->
            [yes] quizá de inmediato (probablemente no en 24 h)
           *[no] después de { $low } como pronto (probablemente no en 24 h)
        }
        [perhaps-never] { $soon ->
            [yes] quizá de inmediato (probable { $middle }, o no en 24 h)
           *[no] después de { $low } (probable { $middle }, o no en 24 h)
        }
       *[span] { $soon ->
            [yes] quizá de inmediato (probable { $middle }, como máximo { $high })
           *[no] después de { $low } (probable { $middle }, como máximo { $high })
        }
    }
outage-level = { $case ->
        [caution] alerta ({ AMOUNT($level_mg_per_l) }) { $time }
       *[critical] crítico ({ AMOUNT($level_mg_per_l) }) { $time }
    }
outage-line = { ALTERNATIVES($names) }: { $caution }; { $critical }.
alternatives = { $first }; o { LOWER($other) }
measure = { $case ->
        [fresh-water] { AMOUNT($flow_l_per_min, decimals: 0) } de agua nueva
        [fewer-fish] { PERCENT($share) } menos de peces
        [fasted] peces en ayuno desde el día anterior
       *[backup] { LIST($devices, last: "and") }
    }
backup-unknown = { $store ->
        [cylinder] mientras dure su botella: no anotado
       *[battery] mientras dure su batería: no anotado
    }
backup-lasts = { $case ->
        [span] { $store ->
            [cylinder] su botella dura de { NUMBER($least_h, atMost: 3) } a { AMOUNT($most_h, atMost: 3) }
           *[battery] su batería dura de { NUMBER($least_h, atMost: 3) } a { AMOUNT($most_h, atMost: 3) }
        }
       *[one] { $store ->
            [cylinder] su botella dura { AMOUNT($most_h, atMost: 3) }
           *[battery] su batería dura { AMOUNT($most_h, atMost: 3) }
        }
    }
backup-lasting = { LIST($lasting, between: "; ") }
gain = { $case ->
        [nothing] nada seguro
       *[likely] { $gain } (probable { $likely })
    }
measure-line = { $case ->
        [unknown] { $name }: { $note }
        [noted] { $name } ({ $note }): { $gain }
       *[bare] { $name }: { $gain }
    }
note-use-held = El consumo de los peces se mantiene constante mientras baja el oxígeno: el lado seguro.
note-cloudy-pond = Un estanque turbio o de tierra consume mucho más oxígeno que sus peces.
note-caution-level = Nivel de alerta { AMOUNT($level_mg_per_l) }
note-critical-level = Nivel crítico { AMOUNT($level_mg_per_l) }
chart-interval = intervalo del { $percent } %
chart-expected = esperado
chart-hours-after = horas desde la parada
chart-oxygen = oxígeno disuelto, mg/L
chart-level = { $case ->
        [caution] { $never ->
            [yes] alerta { AMOUNT($level_mg_per_l) }: 24 h o más
           *[no] alerta { AMOUNT($level_mg_per_l) }: { $low } a { $high }
        }
       *[critical] { $never ->
            [yes] crítico { AMOUNT($level_mg_per_l) }: 24 h o más
           *[no] crítico { AMOUNT($level_mg_per_l) }: { $low } a { $high }
        }
    }
chart-outage = { $name }, con { AMOUNT($start_mg_per_l, decimals: 1) }, { AMOUNT($water_deg_c) }, { AMOUNT($fish_kg, decimals: 0) } de peces

## husbandry: cautions

caution-estimate = Una estimación no es una medida. Actúe según el extremo inseguro del intervalo: la biomasa más alta para el oxígeno, la más baja para las ventas.
caution-oxygen = Las cifras de oxígeno y de tiempos de corte son para planificar. Mida el oxígeno disuelto con un medidor y tenga un respaldo probado.
caution-electrical = Encargue los trabajos eléctricos cerca del agua a un electricista autorizado según la norma local, con protección diferencial.
caution-handling = Maneje los peces con las manos mojadas, poco tiempo fuera del agua y en agua fresca; no muestree con calor ni con poco oxígeno.
caution-tub = Peces en una tina de pesada: minutos, no más; agua de su propia unidad, aireada; vigílelos y pare cuando boqueen o se vuelquen. No más de 0,1 kg de peces por litro (truchas comunes de 76 g lo soportaron 14 h con oxígeno a 10 °C; en agua templada la mitad), y de vuelta en 5 minutos (práctica común, sin fuente).
caution-anaesthetics = Use solo anestésicos autorizados donde usted está, bajo la dirección de un veterinario, y respete el tiempo de espera.
caution-slaughter = Sacrifique sin sufrimiento y como manda la ley local.
caution-fasting = No retire el alimento antes del sacrificio por más de 54 grados-día (días por °C): 4 días a 13 °C, 6 a 9 °C.
caution-dead-fish = Los peces hallados muertos no son en principio alimento: se desconocen la causa y el momento. Siga las normas locales de seguridad alimentaria.
caution-permits = Vertidos, fugas y especies no autóctonas: deciden los permisos locales.

## species

sourced = { $case ->
        [stand-in] { $what }: { $source } (de otra especie, a falta de cifras propias).
        [memory] { $what }: { $source } (de memoria, sin comprobar en su fuente).
        [practice] { $what }: { $source } (práctica común, sin fuente).
       *[seen] { $what }: { $source }.
    }

species-name = { $key ->
    [arctic-char] salvelino ártico
    [atlantic-salmon] salmón atlántico
    [barramundi] barramundi
    [bluegill] mojarra azul
    [brook-trout] salvelino de arroyo
    [brown-trout] trucha común
    [channel-catfish] bagre de canal
    [common-carp] carpa común
    [grayling] tímalo
    [lake-trout] trucha lacustre
    [nile-tilapia] tilapia del Nilo
    [perch] perca europea
    [pikeperch] lucioperca
    [rainbow-trout] trucha arcoíris
    [sea-bass] lubina
    [silver-perch] perca plateada
    [tench] tenca
   *[other] { $name }
}
asked = ; ¿{ LIST($names, last: "or") }?

origin = { $case ->
        [computed] calculado de cifras leídas: { $source }
        [stand-in] de otra especie, a falta de cifras propias: { $source }
        [memory] de memoria, sin comprobar en su fuente: { $source }
        [practice] práctica común, sin fuente: { $source }
       *[seen] leído en su fuente: { $source }
    }

tested = { $case ->
        [real] Probado con { $photos } fotos reales. { $result }
       *[not] Sin validar con fotos.{ $result }
    }

lw-figure = { $size } { $value } { $unit }

lw-data = { $case ->
        [one-size] sin el pez { $fish } todos los demás son de una talla
        [few] hay { $fish } peces; hacen falta { $needed }
        [few-outlines] { $fish } de los peces de las fotos se pueden pesar por su contorno; hacen falta { $needed }
        [wrong] el pez { $fish } tiene: { $figure }
        [no-net] ninguna red está pesada y a la vez fotografiada con peces de contorno útil
       *[one-length] los peces son todos de una longitud, así que no se puede ajustar la pendiente
    }

depth-beside-length = { $case ->
        [helps] Con la altura además sería { AMOUNT($error_percent, decimals: 1) }: la altura ayuda aquí.
       *[idle] Con la altura además sería { AMOUNT($error_percent, decimals: 1) }: aquí no merece la pena medir la altura.
    }

source-own-fit = Ajuste propio de { $fish } peces pesados uno a uno. { $note }
source-own-level = Nivel de { $fish } peces propios, b como se publicó. { $note }
source-own-nets = Pesada conjunta de { $weighed } peces propios, contornos de { $fish } en { $photos } fotos. { $note }
source-own-heights = { $fish } peces propios en { $photos } fotos, longitudes furcales leídas con regla. { $note }
source-own-body = { $fish } peces propios en { $photos } fotos, pesados uno a uno. { $note }
source-own-book = { $entries ->
        [one] Peces propios fotografiados y pesados, en el libro el { DAY($newest) }. { $note }
       *[other] Peces propios fotografiados y pesados, { $entries } anotaciones del libro hasta el { DAY($newest) }. { $note }
    }

no-such-key = { $case ->
        [near] no existe esa clave; ¿quiere decir { $near }?
        [inherited] no existe esa clave en el archivo propio de una población; la tiene su especie
       *[far] no existe esa clave
    }

file-reason = { $case ->
        [not-text] no es texto en UTF-8
       *[not-toml] no es TOML válido: { $told }
    }

## outlook

aeration-short = En { $unit } se midió oxígeno de { AMOUNT($read_mg_per_l, atMost: 3) }, menos del que dejarían peces de este peso con lo que aportan entrada y aireadores según lo anotado. Por eso no se da sitio para más peces.
    .advice = Compruebe si los aireadores funcionan y aportan lo anotado, y mida de nuevo.
    .meaning = Se midió menos oxígeno del que dejarían entrada y aireadores.

aerator-unknown = No se sabe lo que aporta { $device } en { $unit }, así que no se cuenta.
    .advice = Anote los litros de aire por minuto con la profundidad de su difusor, o la tasa estándar de su ficha técnica.
    .meaning = No se sabe lo que aporta un aireador.

biofilter-unknown = { $case ->
        [ph] El pH en { $unit } no se ha medido últimamente. De él depende cuánto amonio soportan los peces, y así cuánto alimento más puede limpiar el filtro; no se da sitio para más peces.
       *[size] No se sabe cuánto alimento más puede limpiar el filtro de { $unit }, así que no se da sitio para más peces.
    }
    .advice = { $case ->
        [ph] Mida el pH y anótelo.
       *[size] Anote para la unidad el alimento diario para el que se dimensionó su biofiltro.
    }
    .meaning = No se sabe cuánto alimento más puede limpiar el filtro de un circuito.

pond-use-unknown = No está anotado cuánto oxígeno consumen el agua y el fondo de { $unit }; en un estanque suele ser más de lo que consumen los peces. Por eso no se da sitio para más peces.
    .advice = Mida el oxígeno al anochecer y antes de salir el sol, y anote para la unidad cuántos mg/L baja en una hora, menos lo que consumen los peces.
    .cli = { pond-use-unknown.advice } Para anotarlo: fishmeasure book change unit { SHELL($unit) } water_respiration_mg_per_l_h=…
    .meaning = No se sabe el oxígeno que consumen el agua y el fondo de un estanque.

no-oxygen-supply = Para { $unit } no hay anotada entrada de agua ni aireador, así que no se puede calcular el oxígeno, y no se da sitio para más peces.
    .advice = Anote sus litros de agua nueva por minuto, o sus aireadores.
    .cli = { no-oxygen-supply.advice } Para anotarlo: fishmeasure book change unit { SHELL($unit) } inflow_l_per_min=… o fishmeasure book change unit { SHELL($unit) } aeration='{ "[{\"name\": \"air pump\", \"gas_l_per_min\": …, \"diffuser_depth_m\": …}]" }'
    .meaning = No hay anotado nada que aporte oxígeno a una unidad.

withdrawal-period = { $case ->
        [until] Sin peces para consumo antes del { DAY($ends_on) }: se dio { $product }.
       *[never] Sin peces para consumo: se dio { $product }, y el agua no reúne sus grados-día en tres años.
    }
    .advice = Consérvelos hasta entonces; deciden la etiqueta y el veterinario.
    .meaning = No ha pasado el tiempo de espera de un medicamento.

too-late-to-order = Peces de esta talla que llegaran hoy pesarían { AMOUNT($reached_g, digits: 3) } el { DAY($on) }, no { AMOUNT($plate_g) }.
    .advice = Encargue mayores, o coseche más tarde.
    .meaning = Alevines de esta talla no pueden estar en talla comercial el día deseado.

due-feed = Dé hoy { AMOUNT($ration_kg, digits: 2) } de alimento{ $fed_kg ->
    [0] .
   *[other] ; ya se han dado { AMOUNT($fed_kg, digits: 2) }.
}

due-sample = { $case ->
        [never] { $cohort } no se ha muestreado nunca.
   *[late] { $cohort } se muestreó por última vez el { DAY($on) }.
}

due-plate-size = Al menos { $fish_count } de { $cohort } están en { AMOUNT($plate_g) }.

no-weight = No se conoce ningún peso de { $cohort }.
    .advice = Tome una muestra con red.
    .meaning = No se conoce el peso de los peces de un lote.

load-incomplete = Los peces de peso desconocido en { $unit } quedan fuera de alimento y límites, que están más cerca de lo que se muestra.
    .advice = Tome una muestra con red.
    .meaning = El alimento y los límites dejan fuera peces de peso desconocido.

oxygen-use-differs = Según las medidas, los peces de { $unit } consumen { NUMBER($measured, atMost: 3) } g/h de oxígeno; según su peso, { NUMBER($modelled, atMost: 3) }.
    .advice = Revise la entrada de agua anotada, el medidor o la prueba y el número de peces; mida de nuevo.
    .meaning = Las medidas y el peso de los peces discrepan sobre el oxígeno que consumen.

ammonia-use-differs = Según las medidas, los peces de { $unit } excretan { NUMBER($measured, atMost: 3) } g/día de amonio; según su peso, { NUMBER($modelled, atMost: 3) }.
    .advice = Revise la entrada de agua anotada, el medidor o la prueba y el número de peces; mida de nuevo.
    .meaning = Las medidas y el alimento discrepan sobre el amonio que excretan los peces.

note-weighed-use = { $case ->
        [oxygen] Oxígeno que consumen los peces: { NUMBER($modelled, atMost: 3) } g/h según el modelo, { NUMBER($measured, atMost: 3) } según las medidas y la entrada; ponderado por sus errores { NUMBER($weighed, atMost: 3) }. Una medida es un instante: su parte de error por hora y comida, 15 % para oxígeno y 25 % para amonio, no tiene fuente.
       *[ammonia] Amonio de los peces: { NUMBER($modelled, atMost: 3) } g/día según el modelo, { NUMBER($measured, atMost: 3) } según las medidas y la entrada; ponderado por sus errores { NUMBER($weighed, atMost: 3) }. Una medida es un instante: su parte de error por hora y comida, 15 % para oxígeno y 25 % para amonio, no tiene fuente.
    }

figure-from = { $case ->
        [read-on] medido el { DAY($on) }
        [expected] esperado
        [read] { $read }, no más alto que los { AMOUNT($other_mg_per_l, decimals: 1) } calculados
        [lower-than-read] calculado, más bajo que { AMOUNT($other_mg_per_l, decimals: 1) } ({ $read })
       *[worked-out] calculado
    }

note-usual-cv = Dispersión de los pesos: CV 0,25, típico de truchas sin clasificar (Rasmussen & Ostenfeld); ningún muestreo dio uno.
note-unseen-losses = Las pérdidas no vistas (1 % al mes) y las tolerancias que ninguna anotación indica son práctica común, sin fuente.
note-water = { $case ->
        [oxygen] Agua, oxígeno: { $source }
        [temperature] Agua, temperatura: { $source }
        [ammonia] Agua, amoníaco: { $source }
        [nitrite] Agua, nitrito: { $source }
        [ph] Agua, pH: { $source }
        [alkalinity] Agua, alcalinidad: { $source }
       *[nitrate] Agua, nitrato: { $source }
    }

## render: an outlook in sentences

outlook-heading = { $unit }: pronóstico del { DAY($on) }

outlook-section = { $case ->
        [weights] 1  Cuánto pesan y cuánto se dispersan
        [kilograms] 2  Cuántos kilogramos
        [growth] 3  Crecimiento y cosecha
        [feed] 4  Alimento
        [limits] 5  Límites y sitio
        [outages] 6  Si algo se para esta noche
       *[grading] 7  Clasificación y condición
    }

outlook-no-answer = Aún sin respuesta; vea los avisos.

of-cohort = { $cohort }:

outlook-weight = { $case ->
        [unknown] { $cohort }: peso desconocido. Tome una muestra con red.
        [usual] { $cohort }: media { AMOUNT($mean_g, digits: 3) }; CV { NUMBER($cv, digits: 2) }, cifra usual: nueve de cada diez entre { NUMBER($low_g, digits: 3) } y { AMOUNT($high_g, digits: 3) }. { CAPITAL($source) }.
       *[known] { $cohort }: media { AMOUNT($mean_g, digits: 3) }; CV { NUMBER($cv, digits: 2) }: nueve de cada diez entre { NUMBER($low_g, digits: 3) } y { AMOUNT($high_g, digits: 3) }. { CAPITAL($source) }.
    }

outlook-biomass = { $case ->
        [unknown] { $cohort }: { NUMBER($fish, decimals: 0, all: 1) } peces, peso desconocido. { CAPITAL($source) }.
       *[known] { $cohort }: { NUMBER($fish, decimals: 0, all: 1) } peces, { AMOUNT($biomass_kg, digits: 3) }. { CAPITAL($source) }.
    }

outlook-total = En total { AMOUNT($biomass_kg, digits: 3) }; como máximo { AMOUNT($density_kg_per_m3, digits: 3) } en { AMOUNT($volume_m3, digits: 3) }.

outlook-growth = { $case ->
        [tgc] { NUMBER($growth, digits: 2) } % al día en los próximos 30 días (TGC { NUMBER($tgc, digits: 3) }).
       *[bare] { NUMBER($growth, digits: 2) } % al día en los próximos 30 días.
    }

outlook-plate-size = Alcanzan la talla comercial, { AMOUNT($size_g, digits: 3) }: los primeros { $first }; la mitad { $half }; casi todos { $nearly_all }.

reached-on = { $case ->
        [later] dentro de más de dos años
        [now] ahora ({ DAY($day) })
        [open] { DAY($day) } ({ DAY($earliest) } a más de dos años)
       *[span] { DAY($day) } ({ DAY($earliest) } a { DAY($latest) })
    }

outlook-harvests = { $case ->
        [one] Si se cosecha, se toman los mayores, tantos como estén en talla comercial en el extremo bajo de lo que se sabe: { $harvest }.
       *[choice] Para elegir, no es un calendario: cada línea es la única cosecha; se toman los mayores, tantos como estén en talla comercial en el extremo bajo de lo que se sabe.
    }

outlook-choice = { $case ->
        [first] O bien { $harvest },
        [next] o { $harvest },
       *[last] o { $harvest }.
    }

outlook-harvest = el { DAY($day) }: { NUMBER($ready_low, decimals: 0) } a { NUMBER($ready_high, decimals: 0) } peces en talla comercial (probable { NUMBER($ready, decimals: 0) }); los { $taken } mayores son { AMOUNT($taken_kg, digits: 3) } y dejan { NUMBER($left, decimals: 0) } peces, { AMOUNT($left_kg, digits: 3) }

outlook-grading = La décima parte menor está por debajo de { AMOUNT($small_g, digits: 3) } (unos { AMOUNT($small_mm, decimals: 0) } de longitud furcal), la mayor por encima de { AMOUNT($large_g, digits: 3) } ({ AMOUNT($large_mm, decimals: 0) }). { $advice }

outlook-grade = { $case ->
        [yes] Se dispersan como peces sin clasificar: vale la pena clasificar.
       *[no] Están próximos entre sí: la clasificación puede esperar.
    }

outlook-condition = { $case ->
        [unknown] Factor de condición: ningún muestreo dio uno.
        [low] Factor de condición { NUMBER($factor, digits: 3) }, publicado { NUMBER($published, decimals: 2) } a esta longitud: bajo. Revise alimento, enfermedad y hacinamiento.
        [high] Factor de condición { NUMBER($factor, digits: 3) }, publicado { NUMBER($published, decimals: 2) } a esta longitud: alto. Puede bastar una ración menor.
       *[normal] Factor de condición { NUMBER($factor, digits: 3) }, publicado { NUMBER($published, decimals: 2) } a esta longitud: normal.
    }

outlook-feed = { $case ->
        [wait] { $wait } Dado en los últimos siete días: { AMOUNT($given_kg, digits: 2) }.
       *[ration] Hoy { AMOUNT($today_kg, digits: 2) }, la semana próxima { AMOUNT($week_kg, digits: 2) }; dado en los últimos siete días { AMOUNT($given_kg, digits: 2) }.
    }

outlook-conversion = Factor de conversión alimenticia desde el { DAY($since) }: { NUMBER($biological, digits: 3) } biológico, { NUMBER($economic, digits: 3) } económico ({ AMOUNT($given_kg, digits: 3) } dados, { AMOUNT($gain_kg, digits: 3) } ganados).

outlook-period-conversion = { $cohort }, del { DAY($since) } al { DAY($until) }: { AMOUNT($feed_kg, digits: 3) } dados, { AMOUNT($gain_kg, digits: 3) } ganados, factor de conversión alimenticia { NUMBER($conversion, digits: 3) }, según muestras, alimento y lo habitual juntos.

limit-within = { $case ->
        [density-index] índice de densidad
        [flow-index] índice de flujo
        [density] densidad de cultivo
        [oxygen] oxígeno
       *[ammonia] amoníaco
    }

outlook-used = { $limit } { SHARE($share) }

outlook-all-used = Usado: { LIST($used, between: "; ") }.

outlook-first = Se alcanza primero: { $limit }; { $room }.

outlook-room = { $case ->
        [wait] sin sitio mientras el agua esté así
        [unknown] no se sabe qué sitio hay para más
        [too-much] { AMOUNT($room_kg, digits: 2) } de más en el extremo inseguro
       *[room] sitio para { AMOUNT($room_kg, digits: 2) } más
    }

outlook-too-many = { $case ->
        [wait] Según estos límites sobran { $fish } peces hasta el { DAY($until) }; no retire ninguno antes de que mejore el agua.
        [sure] Para el { DAY($until) } deben haberse retirado { $fish } peces, los primeros para el { DAY($first_on) } ({ $limit }, en el extremo inseguro).
       *[unsafe-end] Desde el { DAY($first_on) } puede pasarse el límite de { $limit }, en el extremo inseguro: habría que retirar hasta { $fish } peces para el { DAY($until) }. Tome antes una muestra con red, para saberlo mejor.
    }

outlook-fingerlings = { $case ->
        [read-first] Hasta el { DAY($until) } se pueden añadir { $fish } alevines de { $species } de { AMOUNT($each_g, digits: 3) } ({ FINGERLINGS($each_g) }; { AMOUNT($in_all_kg, digits: 2) }); no añada ninguno antes de medir temperatura y oxígeno.
       *[now] Hasta el { DAY($until) } se pueden añadir { $fish } alevines de { $species } de { AMOUNT($each_g, digits: 3) } ({ FINGERLINGS($each_g) }; { AMOUNT($in_all_kg, digits: 2) }).
    }

outlook-ammonia = { $case ->
        [read] amoníaco no ionizado hasta { NUMBER($unionised_mg_per_l, digits: 2, end: "high") } mg/L como N, límite { AMOUNT($limit_mg_per_l) }
       *[unread] amoníaco sin medir esta semana (TAN y pH)
    }

outlook-nitrate = { $case ->
        [not-reached] nitrato { $course } mg/L como N en 60 días, no se alcanza el límite de { AMOUNT($limit_mg_per_l) }
       *[reached] nitrato { $course } mg/L como N en 60 días, el límite de { AMOUNT($limit_mg_per_l) } puede alcanzarse en { $days } días
    }

nitrate-course = { $case ->
        [falling] { NUMBER($begun_mg_per_l, digits: 2) }, bajando a { NUMBER($most_mg_per_l, digits: 2) } como máximo (probable { NUMBER($likely_mg_per_l, digits: 2) })
        [likely-falling] { NUMBER($begun_mg_per_l, digits: 2) }, bajando probablemente a { NUMBER($likely_mg_per_l, digits: 2) } (como máximo { NUMBER($most_mg_per_l, digits: 2) })
       *[rising] { NUMBER($begun_mg_per_l, digits: 2) }, subiendo a { NUMBER($most_mg_per_l, digits: 2) } como máximo (probable { NUMBER($likely_mg_per_l, digits: 2) })
    }

crop-bed = { $case ->
        [leafy] cama de hortalizas de hoja
        [fruiting] cama de hortalizas de fruto
        [nft] canales NFT
       *[raft] cama de balsas
    }

outlook-bed = el alimento sostiene { AMOUNT($area_m2, digits: 2) } de { $bed }

outlook-outage-begins = Empieza con { AMOUNT($start_mg_per_l, digits: 2) } ({ $start_from }) y { AMOUNT($water_deg_c, digits: 2) } ({ $water_from }).

outlook-taken-as-pumped = El agua nueva se toma como bombeada, así que no llega en un corte de luz. Si entra por gravedad, indíquelo en la unidad.

outlook-bought = { $name }: lo que da tiempo, al menos: { LIST($bought, between: "; ") }.

outlook-hold = Para aguantar { $hours } horas no podría haber más de { AMOUNT($fish_kg, digits: 3) } de peces; para mantener el nivel de alerta hacen falta { AMOUNT($air_g_per_h, digits: 2) } de aire de respaldo (tasa estándar) o { AMOUNT($water_l_per_min, digits: 2) } de agua nueva.

water-figure = { $case ->
        [oxygen] oxígeno
        [temperature] temperatura
        [ammonia] amoníaco
        [nitrite] nitrito
        [ph] pH
        [alkalinity] alcalinidad
       *[nitrate] nitrato
    }

must-wait = { $case ->
        [feeding] Sin alimento antes de que mejore el agua ({ $about }, véase arriba).
        [handling] No pesque, muestree, clasifique ni traslade peces antes de que mejore el agua ({ $about }, véase arriba).
       *[adding] No añada peces antes de que mejore el agua ({ $about }, véase arriba).
    }

## render: plots, paper

outlook-sources = Fuentes y supuestos: { $notes }
outlook-sources-head = Fuentes y supuestos
outlook-cautions = Precauciones
outlook-warnings = Avisos
plot-mean-weight = peso medio, { unit-g }
plot-mean-of-a-fish = peso medio de un pez, { unit-g }
plot-weight = peso, { unit-g }
plot-weight-of-a-fish = peso de un pez, { unit-g }
plot-tick = { NUMBER($figure) }
plot-share = proporción de los peces, %
plot-fish-in-each = peces por cada { AMOUNT($step_g) }
plot-growth = Crecimiento; talla comercial a trazos
plot-growth-so-far = Crecimiento hasta hoy y por delante
plot-weights-today = Pesos hoy, talla comercial (a trazos)
plot-weights-in-unit = Pesos en la unidad
plot-spread = { $case ->
        [thin] Pesos: 9 de cada 10 peces (fino),
       *[thick] la mitad (grueso)
    }
plot-interval = { $cohort }, intervalo del { $percent } %
plot-plate-size = talla comercial { AMOUNT($plate_g, decimals: 0) }
plot-no-fish = No hay peces en esta unidad ese día.
plot-used = usado, % del límite
plot-limits = Límites
plot-level = { $case ->
        [caution] alerta { $level }
       *[critical] crítico { $level }
    }
plot-oxygen = oxígeno, mg/L
plot-tonight = Esta noche: { LOWER($name) }
plot-look-again = pez { $fish }: revisar
plot-own-line = esta población: W = { $a } L^{ NUMBER($b, decimals: 3) }, { $fish } peces, banda 2 sd
plot-published-line = publicado: W = { $a } L^{ NUMBER($b, decimals: 3) }
plot-length = { $case ->
        [total] longitud total, { unit-mm }
        [standard] longitud estándar, { unit-mm }
       *[fork] longitud furcal, { unit-mm }
    }
plot-single-fish = Longitud y peso de peces individuales
plot-nets = Redes pesadas y medidas
plot-disagrees = { $net }: no concuerda
plot-on-published = esta población, { $off } % sobre lo publicado
plot-shaded = (intervalo del { $percent } % sombreado)
plot-published = publicado
plot-mean = media { AMOUNT($mean_g, decimals: 0) }, intervalo del { $percent } % { NUMBER($low_g, decimals: 0) } a { AMOUNT($high_g, decimals: 0) }
plot-below = { $case ->
        [tenth] 10 % por debajo de { AMOUNT($weight_g, decimals: 0) }
        [half] la mitad por debajo de { AMOUNT($weight_g, decimals: 0) }
       *[nine-tenths] 90 % por debajo de { AMOUNT($weight_g, decimals: 0) }
    }
plot-measured = { $fish } peces medidos

sheet-words = { $case ->
        [check] Mida esta línea. ¿No son 100 mm? Indique lo medido / 100 como escala de impresión (97 mm: 0.97).
        [print] Imprima al 100 % («tamaño real», nunca «ajustar a página»), en papel mate: el brillo y las fundas de plástico deslumbran.
        [sheet] Póngala plana. Los peces sobre la hoja, o al lado en la misma superficie. Fotografíe en vertical desde arriba, con los cuatro marcadores a la vista.
        [cards] Corte por las líneas de trazos; deje el borde blanco. Pegue sobre algo rígido y plano, y ponga una tarjeta cerca de
        [cards-laid] cada esquina de la bandeja, en la superficie donde están los peces. Fotografíe en vertical desde arriba, con todas a la vista.
        [single] Corte por la línea de trazos; deje el borde blanco. Pegue sobre algo rígido y plano, y póngala junto a los peces, en la
        [single-laid] misma superficie. Fotografíe en vertical desde arriba. Cuatro tarjetas o la hoja miden mejor que una.
        [tub-print] Imprima al 100 % («tamaño real», nunca «ajustar a página») y plastifíquela con lámina mate, o métala en una funda mate y estanca: el brillo refleja el cielo.
        [tub] Póngala plana en el fondo de la tina, con algo plano y mate sobre las esquinas; el agua justo por encima del lomo de los peces. Fotografíe en
        [tub-still] vertical desde arriba, a 60 a 90 cm, sin cielo reflejado sobre la hoja, el agua en reposo; haga tres fotos. Con ondas, una hoja es más segura que las tarjetas.
        [tub-cards] Plastifique cada tarjeta con lámina mate y péguela a algo plano que se hunda (pizarra, azulejo, acero). Para tinas redondas donde no cabe la hoja: una tarjeta
        [tub-cards-laid] cerca de cada lado, a nivel en el fondo, todas a la vista. Las ondas mueven una tarjeta un milímetro o dos: deje reposar el agua y haga tres fotos.
        [dummy-print] Imprima al 100 %, plastifique con lámina mate y recorte el pez por su borde oscuro; su longitud, del hocico a la cola, es 200 mm (mídala).
        [dummy] Péguelo a nivel sobre un separador plano y recto más estrecho que él, de modo que quede 30 a 50 mm sobre la hoja; mida esa altura.
        [dummy-laid] Póngalo en la tina junto a la hoja, cubierto de agua, y fotografíe; después: fishmeasure check FOTO --length-mm 200 --height-mm ALTURA --water
       *[lens-board] Imprima al 100 %, pegue sobre algo plano y haga 8 fotos o más desde distintos lados, de cerca y llenando el encuadre.
    }

five-fish-title = Fotografíe y pese cinco peces
five-fish = { $case ->
        [step-0] Esto enseña al programa el cuerpo de su población: después basta una foto para dar el peso.
        [step-1] 1. Tome cinco peces de las tallas que cría, no los cinco mayores. En ayuno un día; ni maduros ni con vientre hinchado: un contorno no los distingue de la grasa.
        [step-2] 2. Moje la tabla. Ponga plana la hoja o las tarjetas impresas y un pez, o varios separados, de lado junto a ellas: vientre y lomo libres, aletas plegadas, sin sombra dura al lado.
        [step-3] 3. Fotografíe en vertical desde arriba, el pez al menos un cuarto del ancho de la foto. Dos fotos o más son mejor que una: la luz y los bordes son propios de cada foto.
        [step-4] 4. Pese cada uno enseguida, secado, con precisión de 1 g o 1 % (lo más fino), y anote aquí la foto y qué pez de ella, contando desde arriba, fila por fila, de izquierda a derecha («fishmeasure photo FOTO --overlay CARPETA» dibuja los números).
        [step-5] 5. En la página del teléfono abra la unidad, «Fotografiar y pesar cinco peces», y escríbalos allí. O escriba la tabla en un archivo cinco.csv con el encabezado photo,fish,weight_g y ejecute fishmeasure fit cinco.csv --species ESPECIE --save mi_poblacion.toml
       *[step-6] 6. Use desde entonces mi_poblacion.toml como especie. Pese otra vez cinco después del desove, tras un cambio de alimento y cuando una pesada conjunta no concuerde.
    }
five-fish-column = { $case ->
        [date] fecha
        [photo] foto
        [fish] pez
        [weight] peso, { unit-g }
       *[notes] notas
    }

## photo: what is doubtful in a photo

flag = { $case ->
        [edge-cut] El pez se sale de la foto.
        [hidden] Parte del pez está tapada.
        [touching] El pez toca o tapa algo; su contorno es inseguro.
        [on-others] El pez está sobre otros; a qué altura y con qué inclinación se estima, y entra en su error.
        [not-fish-shaped] El contorno no es el de un pez entero.
        [ends-doubtful] El hocico o la horquilla es inseguro; mírelo, y conserve el pez o muévalos.
        [under-water] El pez se ve a través del agua, que deforma lo que se ve.
        [end-in-shadow] El hocico o la horquilla está en sombra, así que su lugar es menos seguro.
        [coiled] El pez está demasiado curvado para medirlo por su línea media.
        [bent] El pez está curvado; se midió por su línea media.
        [tail-doubtful] No es seguro qué extremo es la cola.
        [far-from-markers] El pez está lejos de los marcadores, así que su escala es menos segura.
        [published-weight] El peso sale solo de la relación publicada: error estándar 25 %.
        [outline-doubtful] El contorno del cuerpo está demasiado curvado, es pequeño o raro o está muy cerca de otro pez para pesar por él; se pesa por su longitud, tomado tan gordo como los demás peces de la foto si hay bastantes.
        [outside-species-range] La longitud está fuera del intervalo de los coeficientes de la especie.
        [other-species] El pez es más alto o más esbelto que su especie; ¿es otra?
        [edited] Una persona movió un extremo.
       *[dropped] Una persona dejó fuera este pez.
    }

flag-words = { $case ->
        [edge-cut] cortado por el borde
        [hidden] tapado
        [touching] toca algo
        [on-others] sobre otros
        [not-fish-shaped] sin forma de pez
        [ends-doubtful] extremos dudosos
        [under-water] bajo el agua
        [end-in-shadow] extremo en sombra
        [coiled] muy curvado
        [bent] curvado
        [tail-doubtful] cola dudosa
        [far-from-markers] lejos de marcadores
        [published-weight] peso publicado
        [outline-doubtful] contorno dudoso
        [outside-species-range] fuera del intervalo
        [other-species] otra especie
        [edited] corregido a mano
       *[dropped] dejado fuera
    }

problem-words = { $case ->
        [no-marker] no se ve ningún marcador impreso
        [no-fish] no se encontró ningún pez
        [no-usable-fish] ningún pez sirve
        [tilted] el teléfono estaba inclinado
        [marker-missing] no se vio un marcador
        [not-flat] los marcadores no están planos
        [rough-scale] la escala es aproximada
        [blurred] borrosa
        [too-far] demasiado lejos
        [too-dark] demasiado oscura
        [overexposed] sobreexpuesta
        [small-fish] peces pequeños
        [not-validated] sin validar
        [other-species] otra especie
        [markers-disagree] los marcadores discrepan
        [several-sheets] varias hojas
        [known-distance] distancia conocida
        [through-water] a través del agua
        [too-small] demasiado pequeña
        [too-large] demasiado grande
        [print-scale] escala de impresión
       *[other] { $case }
    }

scale-method = { $case ->
        [sheet] hoja
        [loose-markers] marcadores sueltos
        [single-marker] un marcador
       *[known-distance] distancia conocida
    }

overlay-not-used = { $number } no usado

overlay-length = { $case ->
        [error] { $number }: { NUMBER($length_mm, decimals: 0) }{ "\u2009" }±{ "\u2009" }{ AMOUNT($error_mm, decimals: 0) }
       *[bare] { $number }: { AMOUNT($length_mm, decimals: 0) }
    }

overlay-weight = { WEIGHT($weight_g) }

overlay-footer = { $case ->
        [refused] No medida: { LIST($reasons) }
        [no-scale] Sin escala
        [used] { $used } de { $fish } peces usados
       *[published] pesos como { LIST($names, last: "or") }, solo de la relación publicada · error estándar 25 %
    }

overlay-scale = Escala: { $method }{ $markers }

overlay-scale-error = ±{ PERCENT($share, decimals: 1) }

overlay-tilt = inclinación { NUMBER($tilt, decimals: 0) }°

overlay-errors = { $case ->
        [error] longitudes: error estándar { AMOUNT($most_mm, decimals: 0) }
       *[errors] longitudes: error estándar { NUMBER($least_mm, decimals: 0) } a { AMOUNT($most_mm, decimals: 0) }
    }

overlay-look = Revise: { LIST($reasons) }

marker-missing = Solo se ven { $markers } de los 4 marcadores; los demás están tapados, cortados o con reflejos, así que la escala es menos segura.
    .meaning = No se vio un marcador de la hoja.

not-flat = Los marcadores no están del todo en un plano (desviación de { AMOUNT($rms_mm, decimals: 1) }).
    .advice = Alise la hoja, y ponga cada tarjeta en la superficie donde están los peces.
    .meaning = La hoja no está plana.

overexposed = { $case ->
        [much] Sobreexpuesta: el { PERCENT($share) } está quemado, y el blanco invade los peces.
       *[parts] Sobreexpuesta: hay partes claras quemadas, y el blanco invade los peces.
    }
    .advice = Evite el flash y el sol directo, seque el agua estancada, toque lo blanco para oscurecer la foto.
    .meaning = Demasiada luz: el papel o los peces mojados han perdido su borde.

print-scale-differs = Según los bordes de su papel la hoja se imprimió al { PERCENT($print_scale, decimals: 1) }, que no es lo que se indicó.
    .advice = Mida la línea de control: una escala de impresión de 0,97 son 97 mm de 100.
    .cli = Mida la línea de control e indíquela: --print-scale 0.97 para 97 mm de 100.
    .page = Mida la línea de control e indíquela en «Hoja y objetivo».
    .meaning = Los bordes del papel dicen otra escala de impresión que la indicada.

rough-scale = La escala se conoce solo al { PERCENT($share) }.
    .advice = Cuatro marcadores, o la hoja, lo hacen mucho mejor.
    .meaning = La escala de la foto es insegura.

image-broken = archivo dañado: { $told }

image-parts = tiene más partes que ninguna foto

image-damaged = dañado o de tipo desconocido

lens-not-json = no es JSON

megabytes = { NUMBER($size_mb, decimals: 0) } MB

megapixels = { NUMBER($size_mp, decimals: 0) } megapíxeles

more-than = más de { $size }

picture-pixels = { $width_px } x { $height_px } píxeles

correction-slip = { $case ->
    [no-scale] la foto no tiene escala con que medir
    [no-species] no nombra ninguna especie
    [both-ends] necesita snout_px y fork_px
    [outside] un punto está fuera de la foto
   *[same-place] el hocico y la horquilla están en el mismo lugar
}

correction-no-fish = no hay ningún pez { $number }

in-water = Esta foto se hizo a través del agua: { $wet_count } de sus { $fish_count } peces lo parecen. El agua desvía la luz, así que las longitudes tendrían un error de alrededor del 5 %; no se da ninguna.
    .advice = Indique que los peces están en la tina, con la hoja o las tarjetas en su fondo; o póngalos fuera del agua.
    .cli = Indique --water si la hoja o las tarjetas están en el fondo de la tina (en una muestra: in_water = true); o ponga los peces fuera del agua.
    .page = Vuelva atrás y elija «En la tina» en esta red si la hoja o las tarjetas están en el fondo de la tina; o ponga los peces fuera del agua.
    .meaning = Los peces se ven a través del agua, y nada lo decía.

no-water = Ninguno de los { $fish_count } peces parece visto a través del agua. Si están al aire, sus longitudes tienen un error del 1 al 2 %.
    .advice = Indique «en la tina» solo donde haya agua sobre la hoja y los peces.
    .cli = Omita --water donde no haya agua sobre la hoja y los peces.
    .meaning = Se dijo que una foto se hizo a través del agua y no lo parece.

water-unclear = { $case ->
        [ripples] El agua está demasiado agitada: mueve los marcadores { AMOUNT($rms_mm, decimals: 1) }, y los peces igual.
        [rippled] El agua mueve los marcadores { AMOUNT($rms_mm, decimals: 1) }, así que las longitudes son menos seguras.
        [murky] El agua está demasiado turbia: el negro y el blanco de los marcadores difieren solo en { PERCENT($share) } del brillo del papel.
        [cloudy] El agua está turbia: el negro y el blanco de los marcadores difieren en { PERCENT($share) } del brillo del papel, y pueden faltar peces pálidos o pequeños.
       *[glare] Demasiado reflejo en el agua: el { PERCENT($share) } de la foto está quemado.
    }
    .advice = { $case ->
        [ripples] Deje reposar el agua diez segundos y haga varias fotos.
        [rippled] Deje reposar el agua, o haga varias fotos y nómbrelas todas.
        [murky] Cambie el agua, o espere a que se pose.
        [cloudy] Cambie el agua, o espere a que se pose.
       *[glare] Gire la tina o muévase hasta que no se refleje el cielo, o sujete algo oscuro encima.
    }
    .meaning = Ondas, turbidez o reflejos del agua sobre los peces.

water-depth-alone = es solo para peces en una tina: indique también que están en el agua

scale-division = { $net }: sus peces se pesaron en una tina y no se indicó el escalón de la balanza; se toman { AMOUNT($division_g) }.
    .advice = Indique el escalón de la balanza: lo que muestra después de 0.
    .cli = Indique scale_division_g de la red: lo que la balanza muestra después de 0.
    .meaning = Una red se pesó en una tina con una balanza cuyo escalón no se conoce.

count-unlike-photo = { $net }: se anotaron { $entered } peces, y su foto muestra { $seen } ({ $low } a { $high }).
    .advice = Cuéntelos de nuevo, o mire la foto: puede haber peces tapados, o de otra red.
    .meaning = El recuento de una red y su foto no concuerdan.

dummy-not-seen = No se encontró en la foto ningún pez de unos { AMOUNT($length_mm, decimals: 0) } de largo.
    .advice = Haga la foto de nuevo con el pez de prueba entero a la vista, o indique sus extremos.
    .cli = Haga la foto de nuevo con el pez de prueba entero a la vista, o indique ambos extremos con --ends X1,Y1,X2,Y2 (píxeles desde arriba a la izquierda).
    .meaning = El pez de prueba de longitud conocida no se encontró en la foto.

count-doubted = { $photo }: debería haber { $expected } peces, y la foto muestra { $seen } ({ $low } a { $high }).
    .advice = Cuente de nuevo, o haga otra foto con los peces separados y el agua en reposo.
    .meaning = Un número esperado y la foto no concuerdan.

faint-tails = { $fish_count ->
        [one] La cola de 1 pez no se distingue del fondo, así que el pez no se usa.
       *[other] Las colas de { $fish_count } peces no se distinguen del fondo, así que no se usan.
    }
    .advice = Use una tina clara, o ponga una placa clara y mate o la hoja bajo los peces.
    .meaning = Peces vistos desde arriba tienen el tono del fondo; no se ven sus colas.

heap = Hay peces unos sobre otros: son al menos { $least }, y se pudieron medir { $measured }. No se ve a qué altura está cada uno, lo que aumenta su error; los de debajo no se cuentan.
    .advice = Extienda los peces en una sola capa. Amontone solo peces sacrificados, nunca vivos.
    .meaning = Hay peces unos sobre otros, y no todos se ven.

heap-net = De { $net } se pudieron medir { $measured } de { $netted } peces, porque estaban unos sobre otros. Cuáles se ven depende un poco del tamaño; eso está tenido en cuenta y ensancha el intervalo.
    .advice = La próxima vez extienda los peces en una sola capa. Amontone solo peces sacrificados, nunca vivos.
    .meaning = Los peces de una red estaban unos sobre otros; los que no se ven están tenidos en cuenta.

too-dark = La foto está demasiado oscura.
    .advice = Encienda una luz, o salga de la sombra.
    .meaning = Demasiado oscura para ver pez o marcador.

## pipeline and batch

batch-in-use = otra ejecución lo usa

batch-not-results = contiene otra cosa

measuring-failed = { $case ->
        [batch] El programa que medía esta foto se cerró por un error.
       *[server] La medición de esta foto falló de un modo imprevisto.
    }
    .advice = { $case ->
        [batch] Abra la foto y guárdela de nuevo, o déjela fuera.
       *[server] Envíela otra vez; si también falla, haga otra foto.
    }
    .meaning = El programa que medía una foto de una serie se cerró por un error.

no-fish = { $case ->
        [unit] El libro no tiene peces en { $unit } el { DAY($on) }.
       *[photo] No se encontró ningún pez en esta foto.
    }
    .advice = { $case ->
        [unit] Anote lo que se sembró: cuántos peces, de qué peso medio, qué día.
       *[photo] Ponga los peces separados sobre una tabla lisa junto al marcador y haga la foto desde arriba.
    }
    .cli = { $case ->
        [unit] { no-fish.advice } Para anotarlo: fishmeasure book add stocked unit={ SHELL($unit) } cohort=… fish_count=… mean_weight_g=… on=…
       *[photo] { no-fish.advice }
    }
    .meaning = No se encontró ningún pez en una foto, o no hay ninguno anotado para una unidad.

no-usable-fish = Ningún pez estaba entero y claro como para medirlo; lo que puede serlo está marcado y no se usa.
    .advice = Separe los peces, todos dentro de la foto, y hágala de nuevo, o marque hocico y horquilla a mano.
    .meaning = Ningún pez estaba entero y claro.

not-validated = La medición de { $species } no se ha validado con fotos: no se probó ninguna foto real de esta especie, así que los errores indicados son los de escenas dibujadas y de otros peces.
    .advice = Mida algunos de estos peces con regla y compare antes de fiarse de las longitudes.
    .meaning = La especie no se ha probado con ninguna foto real.

small-fish = { $fish_count ->
        [one] Al menos 1 pez es demasiado pequeño en esta foto para medirlo. Sin él la media sería demasiado alta.
       *[other] Al menos { $fish_count } peces son demasiado pequeños en esta foto para medirlos. Sin ellos la media sería demasiado alta.
    }
    .advice = Acérquese, de modo que cada uno sea más largo de lo que ahora son { AMOUNT($smallest_mm, decimals: 0) }.
    .meaning = Hay peces demasiado pequeños en la foto para medirlos; cuántos.

## estimation: nets, lengths, agreement

some-net = una red

length-in-net = { AMOUNT($length_mm, decimals: 0) } en { $net }

net-off = { $case ->
        [above] { PERCENT($by) } por encima de
       *[below] { PERCENT($by) } por debajo de
    }

net-reason = { $case ->
        [alone] Su peso y sus longitudes no concuerdan con ninguna condición probable: revise el recuento, la tara y la cifra anotada.
        [other-fish] Sus peces están { $off } los demás en peso: otro lote, un grupo clasificado o un lugar donde solo hay ciertas tallas. Pesque de nuevo en otra parte.
        [count] Su peso está { $off } lo que dicen las demás para { $fish_count } peces, y concuerda con { $likely_count }: el recuento falla probablemente en uno. Cuente de nuevo o use el de la foto.
        [tare-forgotten] Su peso está { $off } lo que dicen las demás; los { AMOUNT($excess_g, decimals: 0) } de más parecen una tara de { AMOUNT($tare_g, decimals: 0) } que no se restó.
        [tare-twice] Su peso está { $off } lo que dicen las demás; los { AMOUNT($missing_g, decimals: 0) } que faltan parecen una tara de { AMOUNT($tare_g, decimals: 0) } restada dos veces.
       *[weight] Su peso está { $off } lo que dicen las demás, más de lo que explica el azar o un pez de más o de menos: revise la tara, la unidad de la balanza y la cifra anotada.
    }

fair-netting = { $case ->
        [crowd] Reúna primero los peces, con suavidad, para que la red pueda alcanzarlos a todos.
        [places] Pesque en varios lugares y profundidades, no una vez en la esquina más cercana.
        [first] No deje que la primera red valga por todas: van delante los peces atrevidos, hambrientos o lentos.
        [lure] No los atraiga con alimento: acuden los hambrientos, los demás no.
        [whole-dip] Pese y cuente todos los peces de una redada; apartar algunos es elegir por talla.
        [mesh] Use una malla que retenga los peces más pequeños: ningún intervalo cubre una talla que se escapa.
       *[welfare] Manos mojadas, poco tiempo al aire, agua fresca; sin muestreos con calor o poco oxígeno.
    }

bulk-only = No se midió ningún pez, así que la dispersión de tallas es la de lotes típicos, no la de este.
    .advice = Fotografíe una red para verla.
    .meaning = No se midió ningún pez: la dispersión es la de lotes típicos.

count-differs = { $case ->
        [book] El { DAY($on) } se contaron { NUMBER($counted, decimals: 0) } peces donde el libro tenía { NUMBER($expected, decimals: 0) }.
       *[net] { CAPITAL($net) }: las fotos muestran { $in_photos } peces, pero se contaron { $counted }.
    }
    .advice = { $case ->
        [book] Busque peces que murieron o salieron sin verse, o una anotación incorrecta.
       *[net] Corrija lo que esté mal.
    }
    .meaning = Los peces contados difieren de los de las fotos de una red, o de los del libro.

count-in-unit-too-small = Se pescaron { $netted } peces, pero se dice que la unidad tiene { $count_in_unit }.
    .advice = Corrija el número de la unidad; un número menor por más de su error no se usa.
    .meaning = Se pescaron más peces de los que se dice que hay en la unidad.

doubtful-lengths = Estas longitudes son más probablemente falsas que reales y cuentan poco: { LIST($places) }.
    .advice = Revise los contornos.
    .meaning = Algunas longitudes son probablemente falsas; cuentan poco.

far-from-published = { $case ->
        [net] Con sus longitudes, una red pesa { NUMBER($least, digits: 2) } veces lo publicado, lo que no hace ninguna población.
        [nets] Con sus longitudes, una red pesa de { NUMBER($least, digits: 2) } a { NUMBER($most, digits: 2) } veces lo publicado, lo que no hace ninguna población.
       *[heavy] Con estas longitudes los peces pesan { NUMBER($times, digits: 2) } veces lo publicado.
    }
    .advice = Revise la unidad de la balanza, la tara, los recuentos, la escala de impresión y la especie{ $case ->
        [net] ; no use estas cifras.
        [nets] ; no use estas cifras.
        [light] . Si todo es correcto, estos peces son más ligeros de lo normal para su longitud.
       *[heavy] . Si todo es correcto, estos peces son más pesados de lo normal para su longitud.
    }
    .meaning = Los pesos están lejos de los publicados, o ningún pez pesa así.

net-disagrees = { CAPITAL($net) }: { $reason }
    .meaning = Una red no concuerda con las demás; se da el motivo.

likely-slip = { $net }: { NUMBER($fish, decimals: 0) } peces con { AMOUNT($weight_g) } en total están lejos de los { AMOUNT($others_g) } por pez de las demás redes.
    .advice = { $slip ->
        [count-tenfold] Con { NUMBER($right_fish, decimals: 0) } peces concordaría. Corrija el recuento, o pese la red de nuevo.
        [count-tenth] Con { NUMBER($right_fish, decimals: 0) } peces concordaría. Corrija el recuento, o pese la red de nuevo.
        [tare-forgotten] Sin la red vacía serían { AMOUNT($right_weight_g) } y concordaría. Anote la tara, o pese la red de nuevo.
        [gross] Si la lectura de { AMOUNT($gross_g) } con la red fuera { AMOUNT($right_gross_g) }, encajaría. Revise la unidad y las cifras leídas, o pese la red otra vez.
       *[weight] Con { AMOUNT($right_weight_g) } concordaría. Revise la unidad y las cifras leídas, o pese la red de nuevo.
    }
    .meaning = Una red está donde la pondría un descuido usual: diez veces, otra unidad, sin tara.

net-unused = { CAPITAL($net) } no tiene peso ni peces cuya longitud se pueda usar, así que no dice nada.
    .meaning = Una red no da nada: ni pesada ni medida.

one-net = Una sola red no puede mostrar cuánto difieren las redes; esa parte del error es la típica, no medida.
    .advice = Tome otra de otro lugar.
    .meaning = Una red dice poco del resto de la unidad.

outside-species-range = { $case ->
        [lengths] { $outside } de { $measured } peces están fuera de los { NUMBER($least_mm, decimals: 0) }-{ AMOUNT($most_mm, decimals: 0) } para los que valen los coeficientes de la especie.
       *[mean] La media de { AMOUNT($mean_g, digits: 3) } está fuera de los { NUMBER($least_g, decimals: 0) } a { AMOUNT($most_g, decimals: 0) } para los que valen los coeficientes de la especie.
    }
    .advice = { $case ->
        [lengths] {""}
       *[mean] Revise la unidad de la balanza, la tara y los recuentos.
    }
    .meaning = Hay peces fuera del intervalo de la relación talla-peso.

photo-only = { $case ->
        [outlines] No se pesó ninguna red, así que los pesos se basan en los contornos de los peces: error estándar { PERCENT($relative_sd) } por el grosor de la población, y nada se sabe de peces maduros, tripas llenas o vientres hinchados.
        [own-line] No se pesó ninguna red, así que los pesos se basan solo en esta relación talla-peso: error estándar { PERCENT($relative_sd) }.
       *[published] No se pesó ninguna red, así que los pesos se basan solo en una relación talla-peso publicada: error estándar { PERCENT($relative_sd) }.
    }
    .advice = Pese una red contada de los mismos peces para fijar el nivel.
    .meaning = No se pesó ninguna red: el nivel es el de los contornos o de una relación talla-peso.

photos-exchanged = Junto a las longitudes de sus fotos, { $net } pesa { $case ->
        [heavy] un { PERCENT($net_off) } de más y { $other } un { PERCENT($other_off) } de menos
       *[light] un { PERCENT($net_off) } de menos y { $other } un { PERCENT($other_off) } de más
    }; con las dos fotos cambiadas, ambas encajan.
    .advice = Probablemente las fotos se dieron a la otra red: cámbielas, o mire qué peces muestra cada foto.
    .meaning = Las fotos de dos redes parecen estar cambiadas.

ripe-fish = Estos peces están maduros o en puesta. Las huevas y el semen son hasta una quinta parte de su peso, y ningún contorno los distingue de la carne: los pesos por foto son tanto menos seguros, y nada de ellos pasa a otras fotos.
    .advice = Pese las redes, y fotografíe y pese otra vez cinco peces después de la puesta.
    .meaning = Los peces están maduros o en puesta, así que los contornos dicen su peso con menos seguridad.

repeat-photos = { CAPITAL($net) }: sus fotos muestran juntas más peces de los contados, así que muestran los mismos. Se usó la foto con más peces medidos.
    .meaning = Los mismos peces parecen estar en dos fotos de una red.

repeats-differ = { CAPITAL($net) }: las pesadas repetidas difieren en { AMOUNT($apart_g, decimals: 0) }, más de lo que explica esta balanza.
    .advice = Pésela otra vez.
    .meaning = Las pesadas repetidas de una red difieren más que el error de la balanza.

same-fish = Los { $fish } peces de la foto de { $net } son, uno por uno, tan largos como los de { $other }: difieren un { PERCENT($apart, decimals: 1) } de mediana, como los mismos peces y casi nunca los de dos redes.
    .advice = Probablemente se fotografió dos veces la misma red. Dé a cada red su propia foto, o quite la segunda.
    .meaning = Las fotos de dos redes parecen mostrar los mismos peces.

two-size-groups = Hay dos grupos de tallas: alrededor del { PERCENT($share) } cerca de { AMOUNT($small_g, decimals: 0) } y el resto cerca de { AMOUNT($large_g, decimals: 0) }.
    .advice = Una sola media no describe ninguno; piense en clasificar.
    .meaning = La muestra contiene dos grupos de tallas.

## book: what is in a unit

water-system = { $case ->
        [flow-through] agua nueva de paso
        [pond] un estanque
        [closed-loop] un circuito cerrado con biofiltro
       *[bed-loop] un circuito cerrado con cama de plantas
    }

note-water-system = { $case ->
        [stated] Agua de { $unit }: { $system }, según lo anotado.
       *[taken] El agua de { $unit } se toma como { $system }, por la entrada, la recirculación y la cama anotadas; water_system lo fija.
    }

note-cohort-growth = Crecimiento de { $name }: { $samples } muestreos, { $periods } periodos de alimentación, TGC publicado.

count-from = { $case ->
        [counted] contados el { DAY($on) }, y lo anotado desde entonces
       *[stocked] sembrados menos muertos, retirados o trasladados; sin contar desde entonces
    }

weight-from = { $case ->
        [none] no se ha anotado ningún peso
        [sampled] muestra del { DAY($on) }, junto con las anteriores
        [grown] muestras hasta el { DAY($on) }, crecidos desde entonces
       *[stocked] peso en la siembra, crecidos desde entonces
    }

temperature-held = El crecimiento y el alimento por delante toman el agua de { $unit } como se midió la última vez, { AMOUNT($temperature_deg_c, atMost: 3) } el { DAY($on) }, para todo el año, con { AMOUNT($sd_deg_c) } de más o de menos.
    .advice = Anote la temperatura de la unidad en cada mes, o una sola cifra para un manantial casi constante.
    .meaning = Sin temperaturas del año vale la última medida.

more-out-than-in = En el libro salen { NUMBER($more, decimals: 0) } peces más de los que entraron.
    .advice = Falta una anotación o tiene el lote equivocado; cuente los peces.
    .meaning = Salieron de una unidad más peces de un lote de los que entraron.

doubt-weight = { $case ->
        [falling] Los peces pesan { AMOUNT($entered_g, digits: 3) } cada uno; pesaban { AMOUNT($before_g, digits: 3) } el { DAY($on) }, y se esperan { AMOUNT($expected_g, digits: 3) }.
        [size] Serían peces de { AMOUNT($entered_g, digits: 3) } cada uno.
        [each] Son { AMOUNT($entered_g, digits: 3) } por pez; se esperan { AMOUNT($expected_g, digits: 3) }.
       *[sample] Los peces pesan { AMOUNT($entered_g, digits: 3) } cada uno; se esperan { AMOUNT($expected_g, digits: 3) }.
    }
    .meaning = Se pregunta antes de guardar: un peso medio queda lejos de lo esperado.

doubt-count = { $case ->
        [gone] Han de salir { NUMBER($entered_fish, decimals: 0) } peces de { $unit }, donde según el libro hay { NUMBER($expected_fish, decimals: 0) }.
        [dead] { NUMBER($entered_fish, decimals: 0) } peces muertos son muchos más que de costumbre en { $unit }.
        [stated] El muestreo se calculó para { NUMBER($entered_fish, decimals: 0) } peces en { $unit }, donde según el libro hay { NUMBER($expected_fish, decimals: 0) }.
       *[counted] Se contaron { NUMBER($entered_fish, decimals: 0) } peces en { $unit }, donde según el libro hay { NUMBER($expected_fish, decimals: 0) }.
    }
    .meaning = Se pregunta antes de guardar: un número de peces queda lejos de lo esperado.

doubt-kilograms = { $case ->
        [gone] Han de salir { AMOUNT($entered_kg) } de { $unit }, donde según el libro hay { AMOUNT($expected_kg) }.
       *[stocked] { AMOUNT($entered_kg) } no cuadran con el número y el tamaño de los peces, que dan { AMOUNT($expected_kg) }.
    }
    .meaning = Se pregunta antes de guardar: los kilogramos quedan lejos de lo esperado.

doubt-density = { $unit } tendría { AMOUNT($entered_kg_per_m3, decimals: 0) }, más de lo que se pone en ningún tanque.
    .meaning = Se pregunta antes de guardar: más peces de los que caben en una unidad así.

doubt-fcr = Los peces habrían ganado un kilogramo con { NUMBER($entered_ratio, digits: 2) } kg de pienso, lo que no puede ser.
    .meaning = Se pregunta antes de guardar: una conversión que ningún pienso da.

doubt-condition = Para sus longitudes los peces tienen un factor de condición de { NUMBER($entered_ratio, digits: 3) }; tras el último muestreo se espera { NUMBER($expected_ratio, digits: 3) }.
    .meaning = Se pregunta antes de guardar: peso y longitud no cuadran con el último muestreo.

doubt-temperature = El agua tendría { AMOUNT($entered_deg_c, decimals: 1) }; se esperan { AMOUNT($expected_deg_c, decimals: 1) }.
    .meaning = Se pregunta antes de guardar: una temperatura del agua lejos de lo esperado.

doubt-feed = { AMOUNT($entered_kg) } de pienso quedan lejos de los { AMOUNT($expected_kg) } que se esperan.
    .meaning = Se pregunta antes de guardar: mucho más o menos pienso que de costumbre.

doubt-no-fish = { $case ->
        [later] Según el libro no hay peces de { $cohort } en { $unit } antes del { DAY($first_on) }.
       *[never] Según el libro no hay peces de { $cohort } en { $unit } el { DAY($on) }.
    }
    .meaning = Se pregunta antes de guardar: peces donde el libro no los tiene.

doubt-twice = Lo mismo está ya en el libro, el { DAY($on) }.
    .meaning = Se pregunta antes de guardar: las mismas cifras están ya.

doubt-photo-twice = { $photos ->
        [one] Una foto de este muestreo está también en el del { DAY($on) }.
       *[other] { $photos } fotos de este muestreo están también en el del { DAY($on) }.
    }
    .meaning = Se pregunta antes de guardar: la misma foto en dos muestreos.

doubt-long-ago = El { DAY($on) } es muy anterior al { DAY($last_on) } de lo último que se anotó.
    .meaning = Se pregunta antes de guardar: un día de hace mucho.

slip-fish = Con { NUMBER($right_fish, decimals: 0) } peces cuadraría.

slip-grams = { $case ->
        [grams] Con { AMOUNT($right_g) } por pez cuadraría (gramos por kilogramos).
        [kilograms] Con { AMOUNT($right_g) } por pez cuadraría (kilogramos por gramos).
        [pounds] Con { AMOUNT($right_g) } por pez cuadraría (libras y kilogramos).
       *[none] Con { AMOUNT($right_g) } por pez cuadraría.
    }

slip-kilograms = { $case ->
        [grams] Con { AMOUNT($right_kg) } cuadraría (gramos por kilogramos).
        [kilograms] Con { AMOUNT($right_kg) } cuadraría (kilogramos por gramos).
        [pounds] Con { AMOUNT($right_kg) } cuadraría (libras y kilogramos).
       *[none] Con { AMOUNT($right_kg) } cuadraría.
    }

slip-temperature = { $case ->
        [fahrenheit] Leída en grados Fahrenheit es { AMOUNT($right_deg_c, decimals: 1) }, que cuadraría.
       *[tenfold] Con { AMOUNT($right_deg_c, decimals: 1) } cuadraría.
    }

slip-tare = Cuadraría si se pesó la red o el cubo con los peces: réstelo.

slip-print-scale = Cuadraría si la hoja se imprimió a otra escala: mida su línea de control.

slip-place = Cuadraría con { $cohort } en { $unit }.

slip-day = Cuadraría el { DAY($right_on) }.

no-growth-figures = No hay cifras de crecimiento para { $species }: el peso medio queda fijo entre muestreos.
    .meaning = La especie no tiene cifras de crecimiento, así que el libro no hace crecer sus peces.

feed-off-track = Del { DAY($since_on) } al { DAY($until_on) } hay anotados { AMOUNT($feed_kg, decimals: 1) } de alimento, la mayor parte el { DAY($most_on) }; según todo lo demás los peces comieron { AMOUNT($expected_kg, decimals: 0) }. Este alimento se dejó fuera.
    .advice = Corrija la anotación de alimento incorrecta, o tome una muestra y cuente los peces.
    .meaning = El alimento está lejos de lo que los peces pueden haber comido y se dejó fuera.

sample-off-track = La muestra del { DAY($on) } ({ AMOUNT($mean_g, decimals: 0) }) está lejos de los { AMOUNT($expected_g, decimals: 0) } que dice todo lo demás.
    .advice = Revise la pesada, el alimento y la temperatura; tome otra muestra.
    .meaning = El peso medio de una muestra está lejos de lo que preveía el libro.

weight-implausible = { $case ->
        [stocked] { $fish_count } peces de { AMOUNT($weight_g) } no son { AMOUNT($bulk_weight_kg) }; los kilogramos se dejaron fuera.
       *[taken] Peces de { AMOUNT($weight_g, decimals: 0) } tomados de una media de { AMOUNT($mean_g, decimals: 0) } no concuerdan; la media quedó como estaba.
    }
    .advice = { $case ->
        [stocked] Corrija la anotación del { DAY($on) }.
       *[taken] Tome una muestra.
    }
    .meaning = Un peso anotado no concuerda con las demás cifras de los peces.

weight-unknown = Se retiraron { AMOUNT($weight_kg) } el { DAY($on) } sin conocerse el peso medio, así que no se sabe cuántos peces eran.
    .advice = Corrija la anotación con un número de peces, o cuente los peces.
    .meaning = Se retiraron peces por peso sin conocerse su peso medio.

## store

store-demo = Los tanques del manantial: datos inventados para probar. No existen tales tanques, peces ni personas.

store-demo-note = { $case ->
    [bought] Comprado por peso. Inventado.
    [slip] Diez veces de más, un error al teclear.
   *[smallest] Los más pequeños fueron a { $unit }.
}

store-no-address = no es la dirección de una base de datos

store-other-database = { $driver } no es sqlite ni postgresql

store-no-driver = falta { $driver }; instale fishmeasure[postgres]

store-part-lost = una parte no se puede leer

store-emptied = está vacío, pero su registro no

backup-content = { $case ->
    [more-than-files] contiene más que archivos
    [strange-name] contiene un nombre extraño
    [end-missing] le falta el final
    [no-book] el libro no está dentro
    [book-damaged] el libro que contiene está dañado
    [book-strange] el libro que contiene tiene más que tablas
   *[book-unread] el libro que contiene no se puede leer
}

backup-unread = { $case ->
    [told] no se puede leer ({ $told })
   *[bare] no se puede leer
}

backup-file-changed = { $file } no es lo que se guardó

backup-format = no dice que sea { $format } de la versión { $version }

import-where = { $case ->
    [tables] Las tablas
    [document] El documento
   *[file] El archivo
}

import-no-json = no es JSON ({ $told })

import-format = no dice que sea { $format }

import-version = tiene la versión { $version }, no { $known_version }

import-remarks = remarks no es un objeto de textos

import-no-list = { $name } no es una lista de objetos

import-tables = las tablas son { LIST($tables) }

import-line = { $name }.csv, línea { $line }

table-column = no es una columna de una tabla de redes{ $case ->
        [near] ; ¿quiere decir { $near }?
       *[far] ; lo son fish, gross_g, tare_g, photos, label
    }

table-twice = está dos veces en el encabezado

table-two = es { $first } en una fila y { $second } en la línea { $line }; una muestra tiene uno solo

table-unclear = { QUOTED($given) } se puede leer de dos maneras; escriba { $whole } o { $decimal }

table-day = { QUOTED($given) } no es un día; escriba 2026-05-02

import-cells = tiene más celdas que el encabezado

import-no-csv = no es CSV ({ $told })

import-field = { $field } { $reason }

import-row = { $place }: { $field } { $reason }

field-no-number = es { QUOTED($given) }; escriba los números como 12.5

field-of-no-kind = no es un campo de esto{ $case ->
        [near] ; ¿quiere decir { $near }?
       *[far] {""}
    }

## face: Python

## cli

cli-ration = Ración hoy: { NUMBER($percent) } % del peso corporal

cli-feed-today = Alimento hoy: { AMOUNT($feed_kg) }

cli-feed-ahead = Alimento en { $days } días: { AMOUNT($feed_kg) }

cli-conversion = { $case ->
    [biological] Factor de conversión biológico: { NUMBER($ratio) }
   *[economic] Factor de conversión económico: { NUMBER($ratio) }
}

cli-gain = Ganancia: { AMOUNT($gain_kg) }

cli-day = { $case ->
    [after] después del { DAY($on) }
    [now] ahora, { DAY($on) }
    [or-later] { DAY($on) } ({ DAY($first_on) } o después)
   *[from-to] { DAY($on) } ({ DAY($first_on) } a { DAY($last_on) })
}

cli-weight-on = { DAY($on) }: { AMOUNT($weight_g) }

cli-growth-coefficient = Coeficiente térmico de crecimiento x 1000: { NUMBER($tgc_x1000) }

cli-mean-weight = Peso medio el { DAY($on) }: { AMOUNT($weight_g) }

cli-at-size = Con { AMOUNT($size_g) }: los primeros (5 %) { $first }

cli-at-size-half = la mitad { $half }

cli-at-size-all = casi todos (95 %) { $nearly_all }

cli-growth-rate = Tasa específica de crecimiento, del primer al último muestreo: { NUMBER($rate) } %/día

cli-unionised-share = Fracción no ionizada: { PERCENT($share, decimals: 2) }

cli-unionised = Nitrógeno de amoníaco no ionizado: hasta { AMOUNT($unionised_n_mg_per_l, digits: 2, end: "high") }

cli-unionised-limit = Del límite de { AMOUNT($limit_n_mg_per_l) }: hasta { NUMBER($percent, digits: 2, end: "high") } %

cli-feed-nitrogen = El alimento produce { AMOUNT($made_g) } de nitrógeno al día

cli-plants-take = Las plantas absorben { AMOUNT($uptake_g) } al día

cli-nitrate = Nitrógeno de nitrato en { $days } días: hasta { NUMBER($high_mg_per_l, digits: 3) } (probable { NUMBER($likely_mg_per_l, digits: 3) }) { unit-mg-per-l }

cli-nitrate-limit = { $case ->
    [passed] El límite de { AMOUNT($limit_mg_per_l) } puede superarse en { $days } días
   *[never] El límite de { AMOUNT($limit_mg_per_l) } no se alcanza en ese tiempo
}

cli-bed-needed = { AMOUNT($feed_g) } de alimento al día sostienen { AMOUNT($bed_m2) }

cli-bed-carries = { AMOUNT($bed_m2) } absorben { AMOUNT($feed_kg) } de alimento al día

cli-room-ahead = En los próximos { $days } días hay sitio para { $fish } alevines de { AMOUNT($weight_g) }

cli-over-ahead = { $case ->
    [now] Un límite puede estar superado ahora; retire { $fish } peces, para que ninguno lo esté en los próximos { $days } días
   *[later] Un límite puede superarse en { $over_days } días; retire { $fish } peces, para que ninguno lo haga en los próximos { $days } días
}

cli-density = Densidad de cultivo: hasta { AMOUNT($density_kg_per_m3, end: "high") }

cli-limit = { $name }: { $used } usado; por sí solo al menos { AMOUNT($capacity_kg, end: "low") }

cli-limiting = { $case ->
    [over] Limita primero: { $name }; { AMOUNT($room_kg, digits: 3) } de más en el extremo inseguro
   *[room] Limita primero: { $name }; sitio para { AMOUNT($room_kg, digits: 3) } más
}

cli-lens = { $file }: { $photos } fotos de { $case ->
        [named] { $camera }
       *[unnamed] una cámara sin nombre
    }, distancia focal { AMOUNT($focal_mm, decimals: 1) } (equivalente a 35 mm), distorsión k1 { $k1 }, ajusta a { NUMBER($rms_px, decimals: 2) } píxeles

cli-warning = Aviso: { $told }

cli-the-file = Archivo

cli-the-output = la salida

cli-no-file = no es un archivo

cli-beside = junto a { $other }

cli-without = sin { $other }

cli-more-than-one = más de uno

cli-wanted = { $case ->
    [photos] una carpeta o lista con fotos
    [cluster] posible sin 'pip install fishmeasure[cluster]'
    [scheduler] la dirección de un planificador de dask en marcha
    [writable] uno que se pueda escribir ({ $reason })
    [readable] uno que se pueda leer ({ $reason })
    [text] uno que se pueda leer (no es texto)
    [ends] como 120,80,940,85
    [two-on-screen] posible junto a --json -: nombre un archivo
    [table] un CSV, o --instructions ARCHIVO
    [picture] un archivo en .png, .svg o .pdf
    [both-minutes] posible junto a la otra: --net-minutes y --fish-minutes van juntas
    [strata] como 50/30/20, partes en por ciento que suman 100, o 50:180/50:220 con pesos medios en g
    [record] posible sin una fecha y una unidad en el archivo
    [settings] ajustes como los escribe este programa ({ $reason })
    [sample-file] el nombre de un archivo de muestra, que acaba en .toml
    [new-file] un archivo nuevo: ya existe
    [own-photo] libre: es de otra red
    [one-of-two] posible: indique uno de los dos
    [network] posible: este equipo no está en ninguna red
    [pair] un par de archivos
    [there] un lugar que exista
    [certificate] un certificado con su clave en { $key }, ambos PEM, sin contraseña
    [own-port] un puerto que este usuario pueda abrir; use uno a partir de 1024
    [free-port] un puerto libre: otro programa, o este, ya sirve allí
   *[folder] una carpeta donde se pueda escribir ({ $reason })
}

cli-example = { $case ->
    [kind] unit o cohort
    [such-as] como { $example }
    [not-before] { $example }, ningún día anterior al último muestreo
    [take] --take 2026-08-01=60 o --weekly size --until 2026-10-31
    [weekly] 60 (peces), 20kg o size
    [from-on] un día desde { $first_on }
    [temp-alone] --temp 11 solo
   *[temp] --temp 11, --monthly o --wave
}

usage-takes = { $case ->
    [number] debe ser un número
    [whole] debe ser un número entero
    [most] como máximo { $limit }
    [range] de { $low } a { $high }
   *[least] como mínimo { $limit }
}

usage-no-option = '{ $command }' no tiene la opción { $option }

usage-needs = '{ $command }' necesita { $parameter }

usage-needs-value = '{ $command }' necesita un valor después de { $parameter }

usage-no-value = { $option } no lleva valor

usage-value = { $parameter }: { $reason }

usage-extra = '{ $command }' no acepta '{ $argument }'

usage-named = { $name } ({ $meaning })

cli-not-text = no es texto

cli-not-utf-8 = no es texto en UTF-8

cli-not-kept = { $photo } no se puede conservar en { $folder } ({ $reason })

cli-weights = { $case ->
    [stock] ± es un error estándar. Los pesos son según las cifras propias de esta población.
    [outline] ± es un error estándar. Los pesos son los de { $species } por la altura de cada cuerpo además de su longitud, con un error estándar de alrededor del 15 %. Reproductores, tripas llenas y vientres hinchados pesan otra cosa de lo que dice un contorno: pese una red de estos peces y use 'fishmeasure sample', o cinco uno a uno y use 'fishmeasure fit'.
   *[line] ± es un error estándar. Los pesos son los de { $species } solo por su relación publicada, con un error estándar del 25 %: pese una red de estos peces y use 'fishmeasure sample', o cinco uno a uno y use 'fishmeasure fit'.
}

cli-batch-damaged = { $lines ->
    [one] 1 línea de { $file } estaba cortada o dañada; su foto se mide otra vez.
   *[other] { $lines } líneas de { $file } estaban cortadas o dañadas; sus fotos se miden otra vez.
}

cli-batch-done = { $photos } fotos, { $unusable } de ellas sin cifras; el motivo de cada una está en { $file }.

cli-table-unread = { $name } no se puede leer ({ $reason })

cli-table-no-csv = { $name } no es CSV ({ $told })

cli-table-column = { $name } no tiene la columna { $column }

cli-table-cell = el pez { $number } tiene "{ $given }" en { $name }

cli-row-no-photo = la fila { $row } no nombra ninguna foto

fit-row-problems = fila { $row }: { $photo }: { $told }

cli-row-which-fish = fila { $row }: { $photo } muestra { $fish } peces que se pueden usar, así que una columna fish debe decir cuál; 'fishmeasure photo --overlay' los numera

fit-row-other-fish = la fila { $row } nombra el pez "{ $given }", pero { $photo } tiene los peces 1 a { $fish }

fit-row-unmeasured = fila { $row }: el pez { $number } de { $photo } no se puede medir

cli-stock-saved = Guardado { $file }: úselo como --species { $file }.

cli-length-kind = { $length_kind ->
    [total] longitud total
    [standard] longitud estándar
   *[fork] longitud furcal
}

cli-fit-instructions = Escrito { $file }: imprímalo a cualquier tamaño.

cli-fit-line = W = { $a } L^{ NUMBER($b, decimals: 4) } (g, cm { cli-length-kind }), { $fish_count } peces de { NUMBER($least_mm, decimals: 0) }-{ AMOUNT($most_mm, decimals: 0) }

cli-fit-b = b ± { NUMBER($b_se, decimals: 3) } (error estándar), R2 { NUMBER($r_squared, decimals: 4) }

cli-fit-scatter = Los peces individuales se dispersan un { PERCENT($share, decimals: 1) } en torno a ella; el peso medio a una longitud es { NUMBER($factor, decimals: 4) } veces la línea (smearing: { NUMBER($smearing, decimals: 4) }).

cli-fit-left-out = Un pez dejado fuera del ajuste se predice con un error medio de { PERCENT($share, decimals: 1) }.

cli-fit-outlier = El pez { $number } está lejos de la línea: revise sus cifras.

fit-left = Un pez de { $photo } queda fuera: su contorno es dudoso.

cli-body = W = { NUMBER($factor, decimals: 3) } V (g, cm3; V es la altura al cuadrado a lo largo del cuerpo), ± { PERCENT($share, decimals: 1) } con { $fish } peces en { $photos ->
        [one] 1 foto
       *[other] { $photos } fotos
    }

cli-heights = Hocico { NUMBER($snout, decimals: 2) } y horquilla { NUMBER($fork, decimals: 2) } de medio grosor sobre la tabla (± { NUMBER($snout_sd, decimals: 2) } y { NUMBER($fork_sd, decimals: 2) } de foto a foto), con { $fish } peces en { $photos ->
        [one] 1 foto
       *[other] { $photos } fotos
    }; se suponían { NUMBER($usual_snout, decimals: 2) } y { NUMBER($usual_fork, decimals: 2) }.

cli-heights-told = La regla sola dice { NUMBER($stiffness, decimals: 1) } ± { NUMBER($stiffness_se, decimals: 1) } en una escala en que los peces flácidos son -2 y los rígidos 2.

cli-heights-hold = Valen para peces puestos como estos, el mismo tiempo después de muertos; mida algunos con regla de nuevo cuando eso cambie.

cli-body-left-out = Un pez dejado fuera del ajuste lo dicen los demás con un error medio de { PERCENT($share, decimals: 1) }, y solo por su longitud de { PERCENT($by_length, decimals: 1) }.

fit-one-photo = Están todos en una foto, cuya luz y bordes comparten: peces de dos fotos o más lo harían más seguro.

fit-outlier = El pez { $number } está lejos de los demás: revise su peso.

fit-holds = Vale para peces en el estado de estos: no para maduros, tras comer mucho o con el vientre hinchado, que ningún contorno distingue de la grasa.

fit-ripe = Estos peces están maduros o en puesta: se guarda lo que pesan, pero ninguna otra foto se pesa con ello. Fotografíe y pese cinco peces cuando acabe la puesta.

fit-heights = El hocico y la horquilla de estos peces quedan a { NUMBER($snout, decimals: 2) } y { NUMBER($fork, decimals: 2) } del semigrosor, donde se tomaban { NUMBER($usual_snout, decimals: 2) } y { NUMBER($usual_fork, decimals: 2) }.

fit-row-twice = fila { $row }: el pez { $number } de { $photo } está dos veces

fit-row-nothing = fila { $row }: el pez { $number } de { $photo } no tiene ni peso ni longitud

cli-import-nothing = no tiene { $table }.csv ni nada parecido

cli-exported = { $entries } anotaciones escritas en { $file }

cli-imported = { $entries } anotaciones añadidas, { $repeated } ya estaban.

cli-no-book-yet = aún no hay ningún libro en { $where }.

cli-saved-in = están guardados en { $where }

cli-back-in = { $case ->
    [apart] están de nuevo en { $where }, el libro en { $book }
   *[together] están de nuevo en { $where }
}

cli-backup = El libro y { $photos } fotos ({ NUMBER($size_mb, decimals: 1) } MB, todo comprobado) { $what }.

cli-backup-missing = { $photos ->
    [one] 1 foto del libro no tiene archivo: { $first }.
   *[other] { $photos } fotos del libro no tienen archivo, la primera es { $first }.
}

cli-sample-entered = Anotada en el libro, anotación { $entry }.

cli-sample-joined = Con todo lo demás que el libro sabe de { $cohort }, el peso medio el { DAY($on) } es { AMOUNT($mean_g, digits: 3) }.

cli-sample-netted = De { $cohort } los peces pesados y contados al sembrar o cosechar dicen que sus muestras pesan { PERCENT($by, decimals: 1) } { $case ->
        [heavier] más
       *[lighter] menos
    } que todos sus peces (agua que escurre y qué peces se sacan; { PERCENT($low, decimals: 1) } a { PERCENT($high, decimals: 1) }). La respuesta de arriba no lo descuenta; el libro sí: { AMOUNT($less_g, decimals: 1) } en lugar de { AMOUNT($mean_g, decimals: 1) }.

cli-sample-there = Ya está en el libro: la muestra del { DAY($on) }, anotación { $entry }.

cli-figure = { $case ->
        [g] { AMOUNT($value_g, decimals: 0) } ({ NUMBER($low_g, decimals: 0) } a { NUMBER($high_g, decimals: 0) })
        [kg] { AMOUNT($value_kg, decimals: 1) } ({ NUMBER($low_kg, decimals: 1) } a { NUMBER($high_kg, decimals: 1) })
        [mm] { AMOUNT($value_mm, decimals: 0) } ({ NUMBER($low_mm, decimals: 0) } a { NUMBER($high_mm, decimals: 0) })
        [cell-mm] { NUMBER($value_mm, decimals: 1) }
        [cell-g] { NUMBER($value_g, decimals: 0, bare: 1) }
        [cell-g-span] { NUMBER($span_g, bare: 1) }
        [cell-kg-span] { NUMBER($span_kg) }
        [cell-day] { DAY($on) }
        [cell-m3] { NUMBER($value_m3) }
        [cell-m2] { NUMBER($value_m2) }
        [cell-l-per-min] { NUMBER($value_l_per_min) }
        [middle] { NUMBER($low_g, decimals: 0) } a { AMOUNT($high_g, decimals: 0) }
        [taken-off] { PERCENT($share, decimals: 1) }: { AMOUNT($off_g, decimals: 0) }
        [fish] { NUMBER($fish, decimals: 0, all: 1) }
       *[bare] { NUMBER($figure, decimals: 2, all: 1) }
    }

cli-columns = { $case ->
        [photo] pez | furcal { unit-mm } | ± { unit-mm } | total { unit-mm } | altura { unit-mm } | peso { unit-g } | dudas
        [plan] peces por red | redes | peces en total | esperado ± %
        [species] especie | a | b | K | rango mm | nivel | peces | confianza
        [units] unidad | tipo | { unit-m3 } | entrada { unit-l-per-min } | cama { unit-m2 } | versión
        [cohorts] lote | especie | origen | versión
        [entries] fecha | anotación | unidad | lote | contenido | id
        [state] unidad | lote | peces | peso medio { unit-g } | { unit-kg } | último muestreo
       *[nets] red | peces | medidos | peso { unit-g } | frente al resto | duda
    }

cli-check = { $case ->
        [within] { AMOUNT($known_mm, decimals: 1) } leídos como { AMOUNT($read_mm, decimals: 1) }, { PERCENT($off, decimals: 1) } { $way ->
                [long] de más
               *[short] de menos
            }. Una foto así puede desviarse un { PERCENT($may, decimals: 1) }, así que cámara, hoja y lugar están bien.
        [water] { AMOUNT($known_mm, decimals: 1) } leídos como { AMOUNT($read_mm, decimals: 1) }, { PERCENT($off, decimals: 1) } { $way ->
                [long] de más
               *[short] de menos
            }, y una foto así debería desviarse como máximo un { PERCENT($may, decimals: 1) }. Revise la altura del pez de prueba sobre la hoja, la impresión (su línea de control), que la hoja esté plana y el agua en reposo; haga después otra foto.
       *[air] { AMOUNT($known_mm, decimals: 1) } leídos como { AMOUNT($read_mm, decimals: 1) }, { PERCENT($off, decimals: 1) } { $way ->
                [long] de más
               *[short] de menos
            }, y una foto así debería desviarse como máximo un { PERCENT($may, decimals: 1) }. Revise la altura del pez de prueba sobre la hoja, la impresión (su línea de control) y que la hoja esté plana; haga después otra foto.
    }

cli-count = { $photo }: { $seen ->
        [one] 1 pez ({ $low } a { $high })
       *[other] { $seen } peces ({ $low } a { $high })
    }

cli-it-says = Dice: { $told }

cli-what-to-do = Qué hacer: { $told }

cli-measuring = Midiendo

cli-field-day = on: fecha, como 2026-05-02; si no, hoy

cli-field-name = nombre: { record-word }

device-name = { $case ->
    [aerator] aireador
    [air-pump] bomba de aire
   *[backup-air] aire de respaldo
}

cli-not-used = no usado

cli-photo-scale = { $method }, { NUMBER($px, decimals: 2) } px/mm, inclinación { NUMBER($tilt, decimals: 0) }°, escala ± { PERCENT($scale_sd, decimals: 1) }

cli-photo-weight = peso medio { AMOUNT($value_g, decimals: 0) } ({ NUMBER($low_g, decimals: 0) } a { NUMBER($high_g, decimals: 0) }), factor de condición { NUMBER($condition, decimals: 2) } ({ NUMBER($least_condition, decimals: 2) } a { NUMBER($most_condition, decimals: 2) })

cli-sample-title = { $where }, intervalos del { PERCENT($level) }

cli-sample-unnamed = Muestra

cli-sample-row = { $case ->
        [mean] peso medio en la unidad
        [netted] de los peces pescados
        [drip] agua de escurrido descontada de las redes
        [doubt] descontado de su media, pues una red puede estar mal
        [netting] descontado de la media, pues los peces pescados pesan más
        [spread] dispersión (CV)
        [middle] 80 % central de los peces
        [length] longitud furcal media
        [condition] factor de condición K
        [level] peso sobre lo publicado
       *[biomass] biomasa
    }

cli-sample-fish = { $case ->
        [photos] { $measured } peces medidos ({ $seen } vistos en { $photos } fotos), { $weighed } pesados.
       *[weighed] { $measured } peces medidos, { $weighed } pesados.
    }

cli-plan-title = Peso medio con un margen de { NUMBER($within) } %, intervalo del { PERCENT($level) }

cli-plan-typical = cifras típicas

cli-sample-more = La media se conoce a ± { PERCENT($now, decimals: 1) }; una red más de { $fish_count } peces la dejaría en ± { PERCENT($then, decimals: 1) }.

cli-plan-from = De { $origin }: los peces de una red difieren con un CV de { PERCENT($within_cv) }, las redes además con { PERCENT($between_cv) }. Una expectativa, no una promesa.

cli-sample-worth = { $verdict ->
    [enough] Con ± { PERCENT($aim) } no hace falta otra.
    [worth-it] Vale la pena: unas { $nets } más llevan a ± { PERCENT($aim) }.
   *[other] Más redes apenas llevan a ± { PERCENT($aim) }: pese una parte contada de la unidad.
}

cli-plan-time = Una red lleva { NUMBER($net_minutes) } min y un pez { NUMBER($fish_minutes) } min: redes de { $fish } peces dicen lo más por el tiempo, { $nets } de ellas llevan unos { NUMBER($all_minutes, decimals: 0) } min.

cli-plan-strata = De las partes de la unidad tome { LIST($nets, between: " + ") } redes de { $fish } peces, en el orden dado: ± { PERCENT($half_width, decimals: 1) } para todos. Haga un muestreo de cada parte y sume los pesos medios, cada uno por su parte: un muestreo de todas las redes toma cada red por los mismos peces.

cli-plan-pilot = { $nets } redes dicen eso solo a grandes rasgos, así que el plan prevé más: cuatro de cada cinco planes así cumplen el ± % mostrado.

cli-plan-more = Esa muestra dio ± { PERCENT($now, decimals: 1) }; una red más de { $fish_count } peces daría alrededor de ± { PERCENT($then, decimals: 1) }.

cli-weigh-new = { $file } es nuevo. Una respuesta vacía toma lo que está entre paréntesis, o nada.

cli-weigh-ask = { $case ->
    [date] Día de la muestra
    [unit] Unidad (tanque, estanque, jaula)
    [species] Peces ('fishmeasure species' los enumera)
    [count] Peces en la unidad, si se sabe
    [scale] Escalón de la balanza, en g
    [wet-tare] ¿Se pesa la red vacía mojada y escurrida?
    [fish] Red { $number }: peces dentro (vacío: no hay más redes; -: quitar la última red)
    [gross] Red { $number } con sus peces, en { $unit } (1912; 1908: pesada dos veces; vacío: sin pesar)
    [tare] La red sola, en { $unit }
    [photos] Foto de estos peces (a.jpg; b.jpg: dos; vacío: ninguna)
    [label] Dónde se pescó, u otro nombre
    [right] ¿Está bien como está?
   *[now] ¿Calcular ahora la muestra?
}

cli-weigh-net = { $net }: { $fish_count } peces, { AMOUNT($weight_g, decimals: 0) }, { AMOUNT($mean_g, digits: 3) } por pez.

cli-weigh-so-far = Solo por las pesadas la media es { $mean }.

cli-weigh-no-back = Antes no se preguntó nada; una red de un archivo anterior se quita a mano.

cli-weigh-later = Todo está en { $file }: fishmeasure sample { SHELL($file) }

cli-weigh-taken = { $nets ->
    [one] Una red está
   *[other] { $nets } redes están
} ahora en { $file }: fishmeasure sample { SHELL($file) }

cli-the-setting = El ajuste

cli-the-photo = La foto

cli-print-scale-kept = Escala de impresión { NUMBER($print_scale) }, como está en 'fishmeasure settings'.

farm-title = La explotación el { DAY($on) }

farm-columns = unidad | peces | peso medio | biomasa | alimento hoy | mitad en talla comercial | límite más lleno

farm-cell = { $case ->
    [fish] { NUMBER($fish_count, decimals: 0) }
    [weight] { AMOUNT($mean_g) }
    [biomass] { AMOUNT($biomass_kg) }
    [feed] { AMOUNT($ration_kg, digits: 2) }
    [limit] { $limit } { PERCENT($used) }
   *[day] { DAY($on) }
}

farm-sum = En { $units } unidades: { NUMBER($fish_count, decimals: 0) } peces, { AMOUNT($biomass_kg) }; alimento hoy { AMOUNT($ration_kg) }.

farm-unknown = En { $units ->
    [one] una unidad más
   *[other] { $units } unidades más
} no se conocen los kilogramos: tome una muestra con red.

farm-feed = { $case ->
    [left] Alimento en almacén: { AMOUNT($left_kg) } de { AMOUNT($bought_kg) } comprados desde el { DAY($since_on) }.
   *[short] Se dieron { AMOUNT($left_kg) } más de alimento de lo comprado desde el { DAY($since_on) }: falta una compra.
}

farm-feed-lot = { $feed }{ $size ->
        [known] { " " }(gránulo de { AMOUNT($pellet_mm) })
       *[none] {""}
    }: quedan { AMOUNT($left_kg) }.

farm-feed-days = Dura unos { $days } días con las raciones de hoy.

farm-feed-buy = Para cuatro semanas compre { AMOUNT($buy_kg, end: "high") }.

farm-spent = Gastado: { NUMBER($total, decimals: 2) } (alevines { NUMBER($fingerlings, decimals: 2) }, alimento { NUMBER($feed, decimals: 2) }, otros { NUMBER($other, decimals: 2) }).

farm-per-kg = Un kilogramo de pez costó { NUMBER($per_kg, decimals: 2) }: { AMOUNT($fish_kg) } están vivos o se retiraron con su peso anotado.

register-title = Registro de peces, { DAY($since) } a { DAY($until) }

register-columns = fecha | unidad | lote | movimiento | peces | kg | a | observación

register-kind = { $kind ->
    [stocked] siembra
    [moved] traslado
    [graded] clasificación
    [died] muertos
    [harvested] cosecha
    [sold] venta
   *[treated] tratamiento
}

register-total = { $kind }: { $lines ->
    [one] una línea
   *[other] { $lines } líneas
}, { $fish_count } peces, { AMOUNT($weight_kg) }{ $without ->
    [0] .
   *[other] { " " }({ $without } sin peso).
}

order-fish = Encargue { NUMBER($fish_count, decimals: 0) } alevines de { AMOUNT($size_g) }, unos { AMOUNT($weight_kg, digits: 2) }, para { AMOUNT($harvest_kg) } de { AMOUNT($plate_g) } el { DAY($harvest_on) }.

order-when = { $case ->
    [by] Deben llegar antes del { DAY($by_on) }{ $early ->
        [known] ; antes del { DAY($early_on) } si crecen despacio.
       *[past] ; si crecen despacio, llegan tarde incluso hoy.
    }
   *[never] Peces de esta talla llegan tarde incluso hoy.
}

order-survival = Se supone que del { PERCENT($low) } al { PERCENT($high) } de ellos viven hasta la cosecha.

cli-settings-heading = Ajustes de la línea de órdenes: fishmeasure settings NOMBRE=VALOR

cli-setting = { $case ->
    [species] Pez que se mide: la clave de una especie, o su archivo.
    [print_scale] Longitud impresa de la línea de control de la hoja en mm / 100.
    [scale_resolution_g] Escalón de la balanza, g.
    [wet_tare] Si la red vacía se pesa mojada y escurrida.
    [units] Unidades de lo que se dice y se escribe: métricas o de EE. UU. (us).
    [weight_unit] Unidad de un peso que se escribe sin ella.
   *[other] { $case }
}

cli-settings-kept = Guardado en { $file }.

cli-serve-open = Abra { $url }

cli-serve-local = Solo entra este equipo; --lan deja entrar teléfonos.

cli-serve-plain = Por HTTP simple, cualquiera en esta red puede leer lo que pasa y tomar la clave de un teléfono emparejado; los teléfonos no abren la página sin red, pueden desechar lo que aún no han enviado y no muestran en la página la imagen de la cámara. Quite --plain para HTTPS, o indique --cert y --key.

cli-serve-certificate = { $case ->
        [new] Se ha hecho un certificado para HTTPS. Cada teléfono lo instala una vez; la imagen de abajo lleva a los pasos.
       *[known] Los teléfonos que han instalado el certificado del servidor pasan directamente.
    } Responde solo por esta máquina y su red. Huella (SHA-256), para compararla en el teléfono: { $fingerprint }

cli-serve-code = Código de emparejamiento para el próximo teléfono, como el del propietario: { $code }

start-page = { $case ->
        [title] Que este teléfono confíe en su servidor
        [why] Su servidor usa HTTPS con un certificado que ha hecho él mismo. Instálelo una vez: entonces la página se abre sin red, guarda lo que anota hasta enviarlo y puede usar la cámara.
        [certificate] 1. Cargar el certificado
        [iphone] iPhone y iPad
        [iphone-load] Abra esta página en Safari, toque «Cargar el certificado» y permítalo.
        [iphone-profile] Abra Ajustes. Toque «Perfil descargado», o General y luego «VPN y gestión de dispositivos»; toque el perfil y «Instalar».
        [iphone-trust] En Ajustes, General, Información, «Ajustes de confianza de los certificados», actívelo.
        [iphone-back] Vuelva a esta página y siga.
        [android] Android
        [android-load] Toque «Cargar el certificado». Va a sus descargas.
        [android-settings] Abra Ajustes y busque «certificado CA». Suele estar en Seguridad, «Cifrado y credenciales», «Instalar un certificado».
        [android-choose] Toque «Certificado CA», «Instalar igualmente», y elija el archivo fishmeasure.crt. Antes el teléfono puede pedir un bloqueo de pantalla.
        [android-back] Vuelva a esta página y siga, en Chrome.
        [on] 2. Seguir al servidor
       *[what] El certificado solo puede responder por los nombres y la red de su servidor, avise el teléfono de lo que avise. Si quiere estar seguro de que es el de su servidor, compare su huella con la que se muestra donde se arrancó el servidor.
    }

cli-sheet = Imprima al 100 % («tamaño real») y mida después la línea de control. Mide 100 mm; donde mida 97 mm, indique --print-scale 0.97 con cada foto.

cli-demo-there = Los tanques del manantial ya están en este libro.

cli-demo-try = Pruebe: fishmeasure outlook "Tank A"{ $where }

cli-harvest = { DAY($on) }: los { $fish } peces mayores{ $size ->
        [over] , de más de { AMOUNT($smallest_g, digits: 3) }
       *[any] {""}
    }, { AMOUNT($taken_kg) }; { $left ->
        [some] quedan { $left_fish } peces, { AMOUNT($left_kg) }
       *[none] no queda ninguno
    }

cli-harvest-small = { $fish } peces aún no llegan a { AMOUNT($plate_g) } el { DAY($on) }.

cli-harvest-none = No hay peces que tomar esos días.

cli-harvest-all = En total { $fish } peces, { AMOUNT($taken_kg) }

cli-harvest-under = Desde el { DAY($first_on) } se toman peces por debajo de la talla comercial de { AMOUNT($plate_g) }.

cli-harvest-short = Faltan { $fish } de los peces pedidos.

cli-species-columns = W = a L^b, W en g, L = longitud furcal en cm; K = 100 W / L^3 a 25 cm.

cli-species-level = Una población sin pesar puede desviarse esto: pese una muestra de red.

cli-species-no-growth = Sin cifras de crecimiento, alimento y oxígeno: lo que depende de ellas no se responde para esta especie.

cli-species-lengths = longitud y peso

cli-species-general = peces de consumo en general

cli-species-part = { $case ->
    [shape] forma
    [body] cuerpo
    [growth] crecimiento
    [feed] alimento
    [oxygen] oxígeno
    [limits] límites
   *[water] agua
}

cli-species-figure = { $case ->
    [fork_per_total] Longitud furcal sobre longitud total
    [standard_per_total] Longitud estándar sobre longitud total
    [thickness_per_depth] Grosor sobre altura del cuerpo
    [depth_per_fork_length] Altura del cuerpo sobre longitud furcal
    [snout_height] Hocico sobre la tabla, por medio grosor
    [fork_height] Horquilla sobre la tabla, por medio grosor
    [snout_radius] Radio del hocico visto desde arriba, por medio grosor
    [c_g_per_cm3] Peso sobre la altura al cuadrado a lo largo del cuerpo, g/cm³
    [stock_relative_sd] Su dispersión entre poblaciones, fracción
    [fish_relative_sd] Su dispersión entre peces, fracción
    [squared_depth_per_cubed_length] Altura al cuadrado a lo largo del cuerpo sobre longitud furcal al cubo
    [squared_depth_per_depth2_length] Altura al cuadrado a lo largo del cuerpo sobre altura al cuadrado por longitud furcal
    [tgc_x1000] Coeficiente térmico de crecimiento x 1000, g^(1/3) por grado-día
    [optimum_temperature_deg_c] No crece más deprisa por encima de, °C
    [plate_size_g] Talla comercial, g
    [fcr] Factor de conversión alimenticia
    [protein_percent] Proteína del alimento, %
    [fed_factor] Consumo de oxígeno tras comer sobre en ayuno, veces
    [density_kg_per_m3] Densidad de cultivo máxima, kg/m³
    [min_saturation_percent] Oxígeno que corresponde a esa densidad, % de saturación
    [feeding_low_deg_c] Come desde, °C
    [feeding_high_deg_c] Come hasta, °C
    [act_low_deg_c] Muertes o pérdida de equilibrio en o bajo, °C
    [act_high_deg_c] Muertes o pérdida de equilibrio en o sobre, °C
    [do_watch_mg_per_l] Nivel de alerta de oxígeno, mg/L
    [do_act_mg_per_l] Nivel crítico de oxígeno, mg/L
    [saturation_watch_percent] Vigilar el oxígeno por encima de, % de saturación
    [saturation_act_percent] Actuar con oxígeno por encima de, % de saturación
    [ph_act_low] Actuar con pH por debajo de
    [ph_watch_low] Vigilar el pH por debajo de
    [ph_watch_high] Vigilar el pH por encima de
    [ph_act_high] Actuar con pH por encima de
    [unionised_ammonia_n_act_mg_per_l] Actuar con amoníaco no ionizado por encima de, mg/L como N
    [nitrite_n_watch_mg_per_l] Vigilar el nitrito por encima de, mg/L como N con 10 mg/L de cloruro
    [nitrite_n_act_mg_per_l] Actuar con nitrito por encima de, mg/L como N con 10 mg/L de cloruro
    [nitrate_n_watch_mg_per_l] Vigilar el nitrato por encima de, mg/L como N
   *[other] { $case }
}

cli-species-word = { $case ->
    [high] alta
    [medium] media
    [low] baja
    [farmed] de cultivo
    [wild] silvestres
    [exponential] exponencial
   *[dome] en campana
}

cli-species-line = W = { $a } L^{ $b }, W en g, L = { cli-length-kind } en cm, { NUMBER($least_mm, decimals: 0) } a { AMOUNT($most_mm, decimals: 0) }

cli-species-fork-line = W = { $a } FL^{ $b } por la longitud furcal

cli-species-spread = Nivel ± { PERCENT($level) } para una población desconocida, b ± { NUMBER($b_sd, decimals: 2) }, peces individuales ± { PERCENT($single) } en torno a la línea de su población

cli-species-stock = Peces: { $stock }; confianza { $confidence } ({ $origin })

cli-species-ration = { $case ->
    [chart] Ración: la tabla de truchas
   *[growth] Ración: crecimiento x conversión
}

cli-species-oxygen = Consumo de oxígeno de peces en ayuno: { $form } con la temperatura, ± { PERCENT($share) }, { NUMBER($least_deg_c) } a { AMOUNT($most_deg_c) }, { NUMBER($least_g) } a { AMOUNT($most_g) } ({ $origin })

cli-saturation = Saturación: { AMOUNT($full_mg_per_l, decimals: 2) }

cli-oxygen-use = Los peces consumen { AMOUNT($use_g_per_h) }

cli-oxygen-source = { $name }: { AMOUNT($brings_g_per_h) }

cli-oxygen-supply = Aporte a { AMOUNT($kept_mg_per_l) }: { AMOUNT($supply_g_per_h) }

cli-oxygen-settles = El oxígeno puede estabilizarse tan bajo como { AMOUNT($steady_mg_per_l, end: "low") }

cli-oxygen-carries = Solo por el oxígeno, el aporte sostiene al menos { AMOUNT($most_kg, end: "low") } de peces

cli-oxygen-balance = { $case ->
    [missing] En el extremo inseguro faltan { AMOUNT($balance_g_per_h, digits: 3) }
   *[spare] En el extremo inseguro sobran { AMOUNT($balance_g_per_h, digits: 3) }
}

cli-outage-measures = { $name }: lo que da tiempo hasta el nivel crítico, al menos:

cli-outage-held = El nivel de alerta lo mantendrían

cli-outage-air = aire de respaldo de { AMOUNT($air_g_per_h, end: "high") } de tasa estándar,

cli-outage-water = o { AMOUNT($water_l_per_min, end: "high") } de agua nueva

cli-outage-load = Peces que aguantarían { NUMBER($hours) } h: como máximo { AMOUNT($load_kg, end: "low") }

cli-taken-as-pumped = Se toma como bombeada: sin agua nueva en un corte de luz; indique --inflow-by-gravity si entra por gravedad.

cli-ask-temperature = { $unit }: ¿qué temperatura tiene su agua a lo largo del año? Sin ella vale la última medida todo el año. Doce cifras desde enero, o una para un manantial: fishmeasure book change unit { SHELL($unit) } monthly_temperature_deg_c='[8.5]'

cli-ask-right = { $case ->
        [corrected] ¿Está bien? y: guardar así; c: guardar lo corregido; n: dejarlo.
       *[plain] ¿Está bien? y: guardar así; n: dejarlo.
    }

cli-version = { $name }, versión { $version }

note-plate-size = Talla comercial { AMOUNT($plate_g) }

## cli: help

help-words-usage = Uso:
help-words-options = Opciones
help-words-arguments = Argumentos
help-words-commands = Órdenes
help-words-options-metavar = [OPCIONES]
help-words-command-metavar = ORDEN [ARGUMENTOS]...
help-words-default = por omisión
help-words-required = necesario
help-words-help = Mostrar esta ayuda.

help-backup-command = Guardar libro, fotos y perfiles de objetivo en un archivo comprobado, también con el servidor en marcha.
help-restore-command = Restaurar una copia de seguridad, una vez comprobada entera; pare antes el servidor.
help-batch-command = Medir muchas fotos; parada y arrancada de nuevo, sigue donde estaba.
help-export-command = Escribir el libro entero como un archivo JSON o como tablas CSV.
help-import-command = Añadir lo que contiene un archivo; lo que ya está en el libro se deja como está.
help-units-command = Enumerar las unidades.
help-cohorts-command = Enumerar los lotes.
help-entries-command = Enumerar las anotaciones, primero las más antiguas.
help-state-command = Mostrar lo que hay en cada unidad: número, peso medio y kilogramos.
help-fields-command = Enumerar los tipos de anotación, o los campos de uno.
help-add-command = Añadir una unidad, un lote o una anotación (con fecha de hoy, salvo on=2026-05-02).
help-change-command = Cambiar una unidad o un lote; la versión anterior queda en el libro.
help-correct-command = Escribir una anotación corregida en lugar de una incorrecta, que queda en el libro.
help-cancel-command = Anular una anotación; queda en el libro, pero ya no cuenta.
help-explain-command = Decir qué significa el código de un problema o de un error, y qué se dice con él.
help-fit-command = Ajustar una población a peces pesados o medidos uno a uno, por longitudes o fotos.
help-lens-command = Medir una vez el objetivo de un teléfono; el perfil mejora cada foto que hace.
help-outlook-command = Mostrar una unidad en una página: peso, biomasa, cosecha, alimento, límites, cortes.
help-demo-command = Llenar un libro propio con los tanques inventados del manantial, para probar.
help-photo-command = Medir los peces de fotos: longitudes, y pesos por sus contornos.
help-plan-command = Decir cuántas redes dan el peso medio con un margen de tanto por ciento.
help-sample-command = Estimar peso medio y dispersión con fotos y pesadas conjuntas de redes.
help-serve-command = Servir la página para el teléfono y la API, solo en este equipo salvo --lan.
help-sheet-command = Escribir una página para imprimir al 100 %, y un archivo JSON con sus medidas.
help-species-command = Enumerar las especies, o mostrar una con sus fuentes y su confianza.
help-feed-command = Mostrar la ración y los kilogramos de alimento para hoy y los días siguientes.
help-conversion-command = Mostrar el factor de conversión alimenticia de un periodo, biológico y económico.
help-growth-command = Ajustar el crecimiento a los muestreos de un lote; pesos y fechas de talla comercial por delante.
help-harvest-command = Mostrar lo que dan y dejan cosechas de los peces mayores, por días o por semanas.
help-ammonia-command = Mostrar el amoníaco no ionizado de una medida junto al límite de la especie.
help-nitrate-command = Mostrar adónde va el nitrato con este alimento, recambio de agua y cama de plantas.
help-plant-bed-command = Mostrar la cama de plantas que sostiene el alimento, y el alimento que absorbe una cama.
help-oxygen-command = Mostrar el oxígeno que consumen los peces junto al que entra, en el nivel de alerta.
help-outage-command = Mostrar cuánto dura el oxígeno cuando algo se para, y qué da tiempo.
help-stocking-command = Mostrar lo cerca que está cada límite, el sitio que queda, o cuántos peces deben salir.
help-app = ¿Cuánto pesan los peces? De fotos y pesadas conjuntas al peso medio y la dispersión.
help-version = Mostrar la versión.
help-units = Unidades de lo que se dice y se escribe, metric o us; si no, FISHMEASURE_UNITS, si no, las de 'fishmeasure settings'. El JSON es siempre métrico.
help-language = Idioma de lo que se dice, como es; si no, el del entorno.
help-data-option = La carpeta del servidor; si no, FISHMEASURE_DATA_DIR, si no, la suya.
help-file = La copia que se hace, como lunes.tar; ninguna se sobrescribe.
help-restore-file = Una copia de seguridad hecha con 'fishmeasure backup'.
help-force = Sustituir el libro que hay; se conserva al lado.
help-source = Carpeta de fotos, o un archivo de texto con una ruta por línea.
help-results = Archivo para los resultados, una línea de JSON por foto; lo que tiene se conserva.
help-workers = Fotos medidas a la vez; si no, una por núcleo del procesador.
help-full = Conservar también contornos y geometría: un archivo 40 veces mayor.
help-dask = Dirección de un planificador de dask, para usar más equipos.
help-book-app = El libro de la explotación: unidades, lotes y anotaciones con fecha que nunca se sobrescriben.
help-target = ARCHIVO.json, o una carpeta para tablas CSV.
help-import-source = ARCHIVO.json, una tabla CSV o una carpeta de ellas.
help-unit = Solo de esta unidad.
help-cohort = Solo de este lote.
help-everything = También lo corregido o anulado.
help-on = El día, 2026-05-02; si no, hoy.
help-fields = CAMPO=VALOR, como unit="Tank A" cohort=Trout fish_count=2; vea `fishmeasure book fields TIPO`.
help-kind = unit, cohort o un tipo de anotación.
help-change-kind = unit o cohort.
help-name = Su nombre.
help-entry = Identificador de la anotación incorrecta, o su comienzo.
help-cancel-entry = Identificador de la anotación, o su comienzo.
help-confirm = Guardarlo así, aunque quede lejos de lo que el libro espera.
help-note = Por qué, para el libro.
help-book-option = Archivo o dirección del libro, como postgresql://host/name; si no, FISHMEASURE_BOOK, si no, el suyo.
help-code = Como no-marker; todos, si se omite.
help-table = CSV, una fila por pez, con weight_g (o weight_kg) y length_mm (o length_cm) y, si se midió, depth_mm; o con photo, fish (su número, donde una foto muestra varios) y weight_g, fork_length_mm leída con regla, o ambas.
help-species = La especie de la población.
help-length = Qué longitud se midió.
help-save = Escribir aquí el archivo de especie propio de la población (.toml).
help-plot = Escribir aquí un gráfico (.png, .pdf o .svg).
help-instructions = Escribir aquí una página para imprimir (.pdf): fotografiar y pesar cinco peces.
help-photos = Fotos del tablero de 'fishmeasure sheet lens-board'.
help-lens-name = Cómo llama a este teléfono u objetivo.
help-out = Archivo del perfil que se escribe.
help-options-species = Nombre de 'fishmeasure species', o un archivo TOML de su población; si no, la de 'fishmeasure settings', o rainbow-trout.
help-print-scale = Longitud de la línea de control impresa de la hoja en mm / 100: 0.97 donde mide 97 mm; si no, la de 'fishmeasure settings', o 1.
help-paper = Papel de la hoja impresa, A4, A3 o Letter; si no, lo dicen los marcadores.
help-known = Sin marcador: dos puntos de la foto, en píxeles desde arriba a la izquierda, y la distancia entre ellos.
help-water = Los peces están en una tina con agua, la hoja o las tarjetas en su fondo.
help-water-depth = Con --water: de la superficie del agua a la hoja, { unit-mm }; hace más seguras las longitudes.
help-lens = Perfil de objetivo que escribió 'fishmeasure lens'.
help-json-to = Escribir las cifras como JSON; - para la pantalla.
help-csv-to = Escribir los peces como CSV; - para la pantalla.
help-overlay = Carpeta para imágenes con los peces dibujados.
help-outlook-unit = Nombre de la unidad.
help-pdf = Escribir en este archivo la página para imprimir.
help-hours = Horas de corte a las que deben sobrevivir los peces.
help-fingerlings = Peso de los alevines que se podrían añadir, { unit-g }.
help-days = Días por delante para los que debe haber sitio.
help-demo-on = Último día de los datos inventados, 2026-08-01; si no, hoy.
help-photo-photos = Fotos con un marcador impreso a la vista.
help-within = Se desea: el peso medio con un margen de ± tanto por ciento.
help-level = Probabilidad de que el intervalo acierte: 0.9 es 90 %.
help-fish-per-net = Solo redes de este número de peces.
help-count = Peces en la unidad.
help-sample = JSON que 'fishmeasure sample --json' escribió del último muestreo, para saber cuánto difieren peces y redes; si no, cifras típicas.
help-cv = Dispersión (CV) de los pesos en una red: 0.25 es 25 %.
help-between = Dispersión (CV) entre redes además de esa: 0.09 es 9 %.
help-farm-command = Mostrar todas las unidades, el alimento en almacén, el registro de peces y lo que costó un kilogramo.
help-farm-since = Primer día del registro, como 2026-01-01; si no, un año antes.
help-farm-pdf = Escribir aquí la explotación y su registro para imprimir (.pdf).
help-fingerling-price = Precio de un pez sembrado, en su moneda; con los otros dos se obtiene el coste de un kilogramo.
help-feed-price = Precio de un kilogramo de alimento.
help-other-costs = Todos los demás costes de un mes: electricidad, agua, oxígeno, salarios.
help-order-command = Decir cuántos alevines de qué talla encargar, y cuándo, para una cosecha.
help-order-kg = Kilogramos de peces que se desean.
help-order-on = Día de la cosecha, como 2027-09-15.
help-order-temp = Temperatura del agua, °C, la misma todo el año.
help-order-unit = En lugar de ella: una unidad del libro, con sus temperaturas.
help-order-plate = Peso de un pez en la cosecha, g; si no, la talla comercial de la especie.
help-order-size = Peso de un alevín cuando llega, g.
help-order-survival = Cuántos de 100 alevines viven hasta la cosecha; si no, 75 a 95.
help-net-minutes = Minutos que lleva una red para sacarla, escurrirla y pesarla, aparte de sus peces.
help-fish-minutes = Minutos que lleva un pez de una red para contarlo, colocarlo y devolverlo.
help-strata = Partes de la unidad (profundidades, lugares) de las que se saca por separado: partes de los peces en por ciento, como 50/30/20, con pesos medios en g si se conocen, como 50:180/50:220.
help-settings-command = Mostrar o cambiar lo que toman otras órdenes cuando no se les indica nada.
help-settings-words = Como print_scale=0.97; NOMBRE= solo lo retira.
help-weigh-command = Preguntar una muestra red por red y escribir su archivo; cada red se guarda enseguida.
help-weigh-sample = Archivo que se escribe, o con el que se sigue si ya existe.
help-weigh-table = Tomar las redes de esta tabla (.csv: una fila por red) y no preguntar nada.
help-sample-sample = SAMPLE.toml, o una tabla (.csv): redes con pesadas y fotos.
help-sample-species = Especie, en lugar de la del archivo.
help-plots = Carpeta para gráficos de pesos y longitudes.
help-record = Anotar la muestra en el libro, como una de este lote.
help-sample-save = Escribir aquí el archivo de especie propio de la población (.toml), según las redes pesadas y fotografiadas.
help-port = Puerto de la dirección que se abre.
help-lan = Dejar entrar teléfonos de la red local, emparejándolos.
help-host = Dirección en la que se escucha, 0.0.0.0 para todas, como tras un proxy; los dispositivos se emparejan.
help-prefix = Ruta bajo la que un proxy envía aquí, por ejemplo /fish.
help-plain = Con --lan: HTTP simple, sin el certificado propio del servidor.
help-book = Archivo o dirección del libro; si no, FISHMEASURE_BOOK, si no, el suyo.
help-data = Carpeta de fotos y libro; si no, FISHMEASURE_DATA_DIR, si no, la suya.
help-cert = Certificado TLS (PEM).
help-key = Clave privada TLS (PEM).
help-serve-workers = Fotos medidas a la vez.
help-sheet-kind = La hoja, cuatro tarjetas sueltas, una tarjeta o el tablero para 'lens'.
help-sheet-paper = Tamaño del papel.
help-sheet-out = PDF que se escribe; si no, con nombre según tipo y papel.
help-sheet-tub = Escribir la hoja y las tarjetas para una tina con agua, para plastificar.
help-sheet-dummy = Escribir un pez de 200 mm para recortar, con que comprobar cámara y tina.
help-check-command = Comprobar cámara, hoja y tina con un pez de prueba o un pez de longitud conocida.
help-check-photo = Una foto con la hoja y el pez de prueba a la vista.
help-check-length = Su longitud del hocico a la cola leída con regla, mm.
help-check-height = A qué altura está sobre la hoja, mm: su separador.
help-check-ends = Sus dos extremos en la foto, en píxeles, donde no se encuentren.
help-count-command = Contar los peces de fotos de una tina o bandeja, también alevines.
help-count-photos = Fotos con un marcador impreso a la vista.
help-count-expected = Peces que debería haber; se dice dónde lo contradicen las fotos.
help-every = Escribir todas las páginas en la carpeta --out.
help-species-name = Nombre de una especie, o el archivo TOML de su población.
help-feed-days = Días de alimento.
help-feed = Alimento dado, { unit-kg }.
help-start = Biomasa al inicio, { unit-kg }.
help-end = Biomasa al final, { unit-kg }.
help-removed = Vendido o trasladado fuera, { unit-kg }.
help-dead = Muerto, { unit-kg }.
help-added = Sembrado o traído, { unit-kg }.
help-growth-days = Días por delante.
help-harvest-count = Peces del lote.
help-take = FECHA=NÚMERO de los peces mayores; repítalo.
help-weekly = En lugar de --take, cada semana hasta --until: un número de peces (60), kilogramos (20kg) o 'size': todos los de talla comercial.
help-from = Primer día de --weekly, 2026-05-02; si no, hoy.
help-until = Último día de --weekly, 2026-10-31.
help-count-error = Error estándar del recuento, %.
help-tan = Nitrógeno amoniacal total, mg/L.
help-ph = pH.
help-tan-error = Error estándar de la medida, %.
help-nitrate-feed = Alimento al día, { unit-g }.
help-nitrate-start = Nitrógeno de nitrato ahora, mg/L.
help-exchange = Agua cambiada, { unit-m3-per-day }.
help-protein = Proteína del alimento, %; si no, la de la especie.
help-bed = Cama de plantas, { unit-m2 }.
help-crop = Cultivo o tipo de cama: leafy, fruiting, raft o nft.
help-species-argument = Como rainbow-trout; vea 'fishmeasure species'.
help-biomass-error = Error estándar de la biomasa, %.
help-salinity = Salinidad, g/kg.
help-temp = Temperatura del agua, { unit-deg-c }.
help-volume = Agua, { unit-m3 }.
help-wind = Viento sobre el agua, m/s.
help-fasted = Los peces no se alimentaron desde el día anterior.
help-plate-size = Talla comercial, { unit-g }; si no, la de la especie.
help-mean-weight = Peso medio de los peces, { unit-g }.
help-biomass = Peces en la unidad, { unit-kg }.
help-depth = Profundidad media, { unit-m }; sin ella se deja fuera la superficie.
help-inflow = Entrada de agua, { unit-l-per-min }.
help-inflow-do = Oxígeno del agua de entrada, mg/L; si no, 95 % de saturación.
help-standard-transfer = Tasa estándar de transferencia de oxígeno de los aireadores, g/h.
help-air = Bombas de aire: { unit-l-per-min } de aire en total; o --standard-transfer.
help-air-depth = Profundidad de los difusores bajo el agua, { unit-m }.
help-bubbles = Burbujas de los difusores: fine, medium o coarse.
help-altitude = Altitud, { unit-m }.
help-water-use = Oxígeno que consumen el agua y el fondo, mg/L por hora.
help-cohort-options-sample = Un peso medio: FECHA=GRAMOS, o FECHA=GRAMOS/PORCENTAJE con su error estándar; uno por muestreo.
help-cohort-options-temp = Temperatura del agua todo el año, { unit-deg-c }; o --monthly o --wave.
help-monthly = Temperaturas del agua de los doce meses, desde enero: 4,4,6,...
help-wave = Temperatura del agua como MEDIA,AMPLITUD,DÍA: 9,5,205 es de 4 a 14 °C, máxima el día 205 del año.
help-cohort-options-cv = Dispersión de los pesos (CV): 0.25 es 25 %.
help-oxygen = Oxígeno en el agua cuando se para, mg/L.
help-inflow-by-gravity = El agua sigue entrando sin electricidad.
help-cause = Solo esto: power, pump, blower, intake, device u oxygen; si no, todo lo que tiene la unidad.
help-backup-transfer = Aire de respaldo: tasa estándar de transferencia de oxígeno, g/h.
help-backup-hours = Horas que dura la batería del respaldo.
help-outage-hours = Horas que aguantar: ¿cuántos peces lo harían?
help-chart = Escribir un gráfico en este archivo (.png, .svg o .pdf).
help-stocking-ph = pH, para el amoníaco.
help-density = Su propio límite de densidad, { unit-kg-per-m3 }; si no, el de la especie.
help-condition = Factor de condición K, para los índices de densidad y de flujo.
help-stocking-days = Días por delante en que la unidad debe sostener sus peces.

## api: the server's own errors

setting = { $name }={ QUOTED($value) } no es { $wanted }.

busy = El servidor está midiendo todas las fotos que puede.
    .advice = No se ha perdido nada: envíe la foto de nuevo en unos segundos.
    .meaning = Todos los procesos trabajan y la cola está llena.

workers-lost = Los programas que miden fotos se cerraron una y otra vez en el servidor, quizá por falta de memoria.
    .advice = A la foto no le pasa nada: envíela de nuevo en medio minuto. Si también falla, libere memoria en el servidor o arránquelo de nuevo.
    .meaning = Lo que mide fotos se cerró desde fuera; la foto no se juzgó.

disk-full = El disco del servidor está lleno, así que esto no se pudo guardar.
    .advice = Haga sitio en el servidor y envíelo de nuevo; no se ha perdido nada de lo que confirmó.
    .meaning = No hay espacio para lo enviado.

storage-failed = El servidor no puede usar su disco ({ $reason }), así que esto no se pudo hacer.
    .advice = Revise la carpeta de datos del servidor e inténtelo de nuevo; no se ha perdido nada de lo que confirmó.
    .meaning = El disco del servidor rechaza leer o escribir.

not-found = { $case ->
        [address] No hay nada en esta dirección.
       *[record] No existe: { record-word } { QUOTED($name) }.
    }
    .advice = { $case ->
        [address] Mire la descripción de la API.
       *[record] Mire la lista.
    }
    .meaning = Aquí no hay nada con ese nombre.

conflict = Se ha cambiado mientras tanto: { record-word }.
    .advice = Cárguelo de nuevo y repita el cambio.
    .meaning = Otra persona lo cambió mientras tanto.

not-paired = Este dispositivo no está emparejado con el servidor, o ya no.
    .advice = Abra la dirección que muestra el servidor e introduzca su código, o pida una invitación al propietario.
    .meaning = El dispositivo no tiene una clave válida: nunca se emparejó, se desemparejó o no se usó en mucho tiempo.

not-allowed = { $role ->
        [reader] Este dispositivo puede mirar todo y no cambiar nada
       *[worker] Este dispositivo puede anotar, fotografiar y muestrear, y nada más
    }; esto es para { $least ->
        [worker] trabajadores y el propietario
       *[owner] el propietario
    }.
    .advice = Que lo haga el propietario, o dé a este dispositivo otro papel en «Dispositivos».
    .meaning = Un dispositivo emparejado pidió lo que su papel no permite.

foreign-origin = La petición vino de una página de otra dirección.
    .advice = Abra la página en la dirección propia del servidor.
    .meaning = Una página de otra parte quiso escribir.

unknown-host = Este servidor no se llama { QUOTED($host) }.
    .advice = Use la dirección que muestra, o ponga el nombre en el ajuste HOSTS del servidor.
    .meaning = La petición se envió a un nombre que no es el de este servidor.

wrong-code = El código de emparejamiento es incorrecto o demasiado antiguo.
    .advice = Introduzca el código más reciente que muestra el servidor.
    .meaning = Un código de emparejamiento era incorrecto o demasiado antiguo.

too-many-tries = Demasiados códigos de emparejamiento incorrectos.
    .advice = Espere { $wait_s } s e introduzca el código nuevo que muestra el servidor.
    .meaning = Llegaron demasiados códigos de emparejamiento incorrectos.

photo-lost = El archivo de esta foto en el servidor se perdió o está dañado; lo que se midió en ella está.
    .advice = Envíe la misma foto otra vez y volverá a estar entera, o recupérela de una copia de seguridad.
    .meaning = El archivo de una foto guardada se perdió o está dañado.

photo-deleted = { $case ->
        [named] { $by } borró esta foto el { DAY($on) }
       *[unnamed] Esta foto se borró el { DAY($on) }
    }; lo que se midió en ella se conserva.
    .advice = Haga otra foto; esta no se acepta de nuevo.
    .meaning = El propietario borró el archivo de una foto.

too-slow = La medición de esta foto duró más de { $limit_s } s y se detuvo.
    .advice = Envíela de nuevo cuando haya menos trabajo, o haga otra foto.
    .meaning = La medición de una foto duró demasiado y se abandonó.

too-slow-upload = El envío duró más de { $limit_s } s.
    .advice = No se ha perdido nada: envíelo de nuevo donde la red sea mejor.
    .meaning = Una petición llegó demasiado despacio.

too-many-photos = Un envío puede tener { $limit } fotos.
    .advice = Envíe las demás en otro.
    .meaning = Un envío tiene más fotos de las que el servidor toma a la vez.

no-estimate = Esta muestra aún no da un peso medio.
    .advice = Pese una red o añada una foto con peces medidos, y guárdela.
    .meaning = La muestra no tiene estimación que dibujar o anotar.

no-nets = Aún no hay ninguna red en esta muestra.
    .advice = Pesque algunos peces, cuéntelos y péselos, o fotografíelos junto al marcador.
    .meaning = La muestra aún no tiene ninguna red.

book-not-empty = El libro ya tiene algo dentro.
    .advice = El ejemplo va en un libro propio: indique otro archivo para él.
    .page = Arranque el servidor con otro libro vacío para ver el ejemplo.
    .meaning = El ejemplo se mezclaría con lo que hay en el libro.

invalid-request = { $field } { STOP($reason) }
    .advice = Corrija la petición; la descripción de la API enumera cada campo.
    .meaning = Un campo de la petición falta, es desconocido o no sirve.

bad-request = La petición no se entiende: { STOP($told) }
    .advice = Mire la descripción de la API.
    .meaning = La petición no se puede descomponer.

wrong-method = Esta dirección no acepta { $method }.
    .advice = Mire la descripción de la API.
    .meaning = La dirección no acepta ese método.

internal = El servidor falló de un modo imprevisto.
    .advice = Inténtelo otra vez; si falla de nuevo, comuníquelo con la hora.
    .meaning = El servidor falló de un modo imprevisto.

## page: texts of the phone page (ids begin with page-)

## page: what the phone page itself says, figures already in the phone's units

page-back = Atrás
page-cancel = Cancelar
page-done = Listo
page-yes = Sí
page-loading = Un momento…
page-stale = Como se vio la última vez; el servidor no está al alcance.
page-cautions = Precauciones
page-tabs = Pantallas principales
page-tab-today = Hoy
page-tab-waiting = Salida
page-tab-guide = Guía
page-tab-settings = Ajustes

page-network-unreachable = Servidor fuera de alcance. Siga; todo se guarda en este teléfono.
page-version-newer = Hay una versión más nueva de esta página.
page-version-reload = Cargarla
page-error-title = Esto no funcionó
page-error-full = A este teléfono no le queda sitio, así que no puede guardar más. Haga sitio, o envíe lo que espera.
page-error-no-screen = No existe esa pantalla.
page-error-unreachable = El servidor está fuera de alcance.
page-error-unreachable-advice = Esto no se había mirado antes, así que aquí no hay nada guardado. Inténtelo donde haya red.
page-drawing-missing = El dibujo no se puede mostrar ahora.

page-state-waiting = en espera
page-state-sending = enviando
page-state-measured = medida
page-state-asked = ¿está bien?
page-state-refused = rechazada
page-state-saved = guardado

page-today-title = Hoy
page-today-as-of = A fecha de { $when }. No incluye lo ocurrido después.
page-today-waiting = { $n } en este teléfono
page-today-withdrawal = No apto para consumo hasta el { $date }: { $product }.
page-today-withdrawal-open = No apto para consumo, sin fin conocido: { $product }.
page-today-fed-of = Hoy { $fed } dados de { $ration }
page-today-fed = Hoy { $fed } dados
page-today-sample = Muestra
page-today-water = Agua
page-today-entered = Anotado en este teléfono
page-today-more = { $n } más
page-today-farm = La granja
page-today-units-unknown = { $n ->
    [one] sin { $n } unidad cuyos peces nunca se pesaron
   *[other] sin { $n } unidades cuyos peces nunca se pesaron
    }
page-today-ration = Alimento del día
page-today-store = Alimento en almacén
page-today-store-unknown = no hay compras de alimento anotadas
page-today-lasts = dura { $days } días
page-today-to-buy = por comprar para cuatro semanas: { $value }
page-today-print = La granja para imprimir (PDF)
page-where-here = en este teléfono
page-where-sending = enviándose
page-where-sent = enviado
page-where-refused = rechazado, vea la salida
page-due-count = { $n ->
    [one] algo pendiente en { $n } unidad
   *[other] algo pendiente en { $n } unidades
    }

page-quick-title = { $what }, { $unit }
page-quick-no-feed = Ahora no dé alimento
page-quick-fed = Hoy se han dado { $value }.
page-quick-ration-of = La ración es la del { $date }.
page-quick-protein = { $percent } % de proteína
page-quick-same-feed = Se toma como el alimento de la última vez: { $what }.
page-quick-ration = Ración { $value }
page-quick-rest = Falta dar { $value }
page-quick-last = Como la última vez { $value }
page-quick-need = Escriba antes una cifra.
page-quick-which = Elija de qué peces.
page-quick-save = Guardar
page-quick-more = Fecha, nota y más
page-quick-kept = { $what }, { $unit }: guardado en este teléfono

page-remind = Recordatorios
page-remind-how = Un aviso en este teléfono cuando algo está pendiente, como mucho una vez al día y cuando el agua empeora. Solo llega mientras esta página está abierta en segundo plano; nada pasa por terceros.
page-remind-cannot = Este navegador solo lo permite en una página segura (HTTPS), o no lo permite. Lo pendiente está en la primera pantalla.
page-remind-on = Avisarme en este teléfono
page-remind-off = No avisarme más
page-remind-is-on = Este teléfono le avisa.
page-remind-denied = El navegador no lo permitió. Puede cambiarse en sus ajustes de esta página.
page-remind-title = { $n ->
    [one] Pendiente en { $n } unidad
   *[other] Pendiente en { $n } unidades
    }

page-home-add = Añadir una unidad
page-home-empty = Aquí aún no nada nada
page-home-empty-how = Anote su primer tanque, estanque, canal o jaula. Su tamaño y su agua bastan para empezar.
page-home-demo = Mirar con tanques inventados
page-home-fish = { $count } { $species }
page-home-biomass = { $value } en total
page-home-sampled = { $n ->
    [one] muestreada ayer
   *[other] muestreada hace { $n } días
    }
page-home-sampled-today = muestreada hoy
page-home-unfinished = { $unit }: muestra sin terminar
page-home-unfinished-nets = { $n ->
    [one] { $date }, { $n } red
   *[other] { $date }, { $n } redes
    }
page-fish-count = { $shown } peces

page-unit-gone = Esta unidad no está en el libro.
page-unit-no-fish = No hay peces anotados
page-unit-no-fish-how = Anote qué peces entraron y cuántos. Después se puede pesar una muestra.
page-unit-unweighed = Aún sin pesar
page-unit-each = por pez
page-unit-count = Peces en el libro
page-unit-sampled = Último muestreo
page-unit-waiting = De camino al servidor.
page-unit-stock = Anotar peces sembrados
page-unit-sample = Muestrear esta unidad
page-unit-which = ¿Qué peces muestrea?
page-unit-go-on = Seguir con la muestra
page-unit-go-on-of = Seguir con la muestra empezada en { $who }
page-unit-go-on-other = Seguir con la muestra de otro teléfono
page-unit-history = Crecimiento
page-unit-growth-alt = Peso medio a lo largo del tiempo con sus intervalos y la previsión.
page-unit-distribution-alt = Dispersión de los pesos, muestra por muestra.
page-unit-more = Más sobre esta unidad
page-unit-plan = Plan: cosecha, pienso, sitio, parada
page-unit-book = Libro de anotaciones
page-unit-print = Pronóstico para imprimir (PDF)
page-unit-grade = Clasificar por tallas
page-unit-change = Tamaño y agua

page-unit-form-new = Unidad nueva
page-unit-form-change = { $unit }: tamaño y agua
page-unit-form-how = Hacen falta nombre, volumen y profundidad. Cuanto más se diga del agua, mejores serán las cifras de oxígeno.
page-unit-form-save = Guardar la unidad
page-unit-form-label = Unidad { $unit }
page-kind-tank = Tanque
page-kind-pond = Estanque
page-kind-raceway = Tramo de canal
page-kind-cage = Jaula
page-unit-name = Nombre
page-unit-kind = Tipo
page-unit-volume_m3 = Volumen de agua
page-unit-depth_m = Profundidad del agua
page-unit-inflow_l_per_min = Agua nueva
page-unit-inflow_l_per_min-hint = Mida cuánto tarda en llenarse un cubo de 10 L: 600 dividido por los segundos.
page-unit-inflow_by_gravity = El agua nueva entra sin electricidad
page-unit-inflow_by_gravity-hint = Marque solo si ninguna bomba la eleva. Si no, no se cuenta con ella en un corte de luz.
page-unit-recirculated_l_per_min = Agua recirculada
page-unit-plant_bed_area_m2 = Cama de plantas
page-unit-water_system = Cómo se mantiene limpia el agua
page-unit-water_system-hint = Decide qué límites valen para amoníaco y nitrato.
page-water_system-none = Según los caudales de arriba
page-water_system-flow-through = Agua nueva de paso
page-water_system-pond = Estanque
page-water_system-closed-loop = Circuito cerrado con biofiltro
page-water_system-bed-loop = Circuito cerrado con cama de plantas
page-unit-biofilter_feed_kg_per_day = Alimento diario para el que se dimensionó el biofiltro
page-unit-water_respiration_mg_per_l_h = Oxígeno que consumen agua y fondo
page-unit-water_respiration_mg_per_l_h-hint = Para estanques: cuánto baja el oxígeno en una hora de la noche, menos lo que consumen los peces.
page-unit-altitude_m = Altitud
page-unit-altitude_m-hint = Más arriba el agua tiene menos oxígeno.
page-unit-aerator = Aireador
page-aerator-gas_l_per_min = Bomba de aire: litros de aire por minuto
page-aerator-gas_l_per_min-hint = Lo impreso en ella, a la profundidad de su difusor. Dos bombas: la suma.
page-aerator-diffuser_depth_m = Agua sobre el difusor
page-aerator-depth-wrong = Indique la profundidad del difusor con los litros de aire.
page-aerator-bubbles = Sus burbujas
page-bubbles-coarse = gruesas (tubo, piedra difusora como grava)
page-bubbles-medium = medianas (manguera perforada)
page-bubbles-fine = finas (como leche en el agua)
page-aerator-standard_transfer_g_per_h = Aireador: transferencia de oxígeno en agua limpia
page-aerator-standard_transfer_g_per_h-hint = La tasa estándar, si la da su ficha técnica. Cuenta antes que los litros de aire.
page-aerator-on_backup = El aireador funciona con batería cuando falta la luz
page-aerator-backup_hours = Horas que dura la batería
page-aerator-backup_hours-hint = Según prueba. Vacío: no se cuenta.
page-unit-monthly = Temperatura del agua por meses ({ $unit })
page-unit-monthly-hint = Doce cifras desde enero, separadas por espacios; una sola para un manantial casi constante. Sin ella vale la última medida todo el año.
page-unit-monthly-wrong = Indique doce temperaturas de enero a diciembre, una para todo el año, o ninguna.
page-unit-note = Nota

page-stocking-title = Peces a { $unit }
page-stocking-save = Guardar los peces
page-stocking-cohort = Lote { $name }
page-field-species_key = Especie
page-stocking-name = Nombre de este lote
page-field-on = Fecha
page-field-fish_count = Número de peces
page-field-mean_weight_g = Peso medio de un pez
page-field-plate_weight_g = Talla comercial
page-field-cohort_id = Lote
page-field-to_unit_id = A la unidad
page-field-cause = Causa, si se conoce
page-field-feed_kg = Alimento
page-field-feed_name = Nombre del alimento
page-field-pellet_mm = Tamaño del gránulo, mm
page-field-product = Medicamento
page-field-withdrawal_days = Tiempo de espera, días
page-field-withdrawal_degree_days = O en grados-día, °C x días
page-field-reason = Contra qué
page-field-protein_fraction = Proteína del alimento
page-field-weight_kg = Peso en total
page-field-bulk_weight_kg = Peso en total
page-field-temperature_deg_c = Temperatura
page-field-do_mg_per_l = Oxígeno disuelto
page-field-ph = pH
page-field-tan_mg_per_l = Nitrógeno amoniacal total (TAN)
page-field-nitrite_n_mg_per_l = Nitrógeno de nitrito (NO2-N)
page-field-nitrate_n_mg_per_l = Nitrógeno de nitrato (NO3-N)
page-field-alkalinity_mg_per_l = Alcalinidad, como CaCO3
page-field-chloride_mg_per_l = Cloruro
page-field-ammonia_as_nh4_mg_per_l = Si la prueba da NH4: amonio como NH4
page-field-ammonia_as_nh3_mg_per_l = Si la prueba da NH3: amonio total como NH3
page-field-nitrite_as_no2_mg_per_l = Si la prueba da NO2: nitrito como NO2
page-field-nitrate_as_no3_mg_per_l = Si la prueba da NO3: nitrato como NO3
page-field-note = Nota
page-form-optional = (opcional)
page-form-needs = Rellene { $fields }.
page-form-or = { $one }, o { $other }
page-form-with = { $one } con { $other }
page-form-needs-any = Rellene al menos una cifra.
page-form-range = { $label } ({ $from } a { $to })
page-form-unclear = { $label } (¿{ $whole } o { $decimal }?)
page-form-wrong = Revise: { $fields }.

page-sample-title = Muestra, { $unit }
page-sample-gone = Esta muestra ya no está en este teléfono.
page-sample-recorded = En el libro
page-sample-taken-back = Retirada el { $date }
page-sample-take-back = Retirar esta muestra
page-sample-take-back-sure = ¿Retirar esta muestra del libro? Sus fotos y redes se guardan en el servidor.
page-sample-take-back-write = Retirar la muestra de { $unit }
page-sample-begun = Empezada en { $who }
page-sample-begun-changed = Empezada en { $who }, cambiada por última vez en { $last }
page-sample-clash = La red { $n } se cambió también en otro teléfono. Ahora dice { $theirs }; aquí decía { $ours }. Corríjala si eso está mal.
page-sample-closed-elsewhere = { $who } cerró esta muestra entretanto. Lo que se cambió aquí desde entonces no está en ella.
page-sample-answer = Mostrar la respuesta
page-sample-add-net = Añadir otra red
page-sample-tip = Varias redes de lugares distintos dicen más que una red llena.
page-sample-discard = Desechar esta muestra
page-sample-discard-sure = ¿Desechar esta muestra con sus fotos y pesadas?
page-sample-so-far = Hasta ahora { $value } por pez
page-sample-updating = calculando de nuevo…
page-sample-weighed-so-far = { $value } por pez
page-sample-plain = { $n ->
    [one] De { $n } sola pesada; el intervalo viene del servidor.
   *[other] Solo de { $n } pesadas; el intervalo viene del servidor.
    }
page-net-title = Red { $n }
page-net-photograph = Fotografiar
page-net-choose = Elegir fotos
page-net-weigh = Pesar esta red
page-net-weigh-again = Cambiar la pesada
page-net-mean = { $value } por pez
page-net-unweighed = sin pesar
page-net-remove = Quitar la red { $n }
page-net-remove-sure = ¿Quitar esta red con sus fotos y su pesada?

page-tub-choice = En la tina: vivos, en agua, la hoja o las tarjetas en su fondo
page-tub-water_depth_mm = Profundidad del agua, { $unit }
page-tub-water_depth_mm-hint = De la superficie a la hoja; déjelo vacío si no puede medirla.
page-tub-scale_division_g = Escalón de la balanza, { $unit }
page-tub-scale_division_g-hint = Lo que la balanza bajo la tina muestra después de 0. Su tara es la tina con su agua.
page-tub-caution = Minutos, no más; agua de su propia unidad, aireada; vigile los peces y pare cuando boqueen o se vuelquen. No más de 0,1 kg de peces por litro, la mitad en agua templada, y de vuelta en 5 minutos.

page-weigh-title = Pesar la red { $n }
page-weigh-fields = Lo que rellenan las teclas
page-weigh-gross = Red con peces
page-weigh-tare = Red mojada sola
page-weigh-fish = Peces dentro
page-weigh-next = Siguiente: { $field }
page-weigh-save = Guardar la pesada
page-weigh-how = Deje escurrir siempre el mismo tiempo y lea la balanza.
page-weigh-seen = { $n ->
    [one] La foto muestra { $n } pez.
   *[other] Las fotos muestran { $n } peces.
    }
page-weigh-differs = { $n ->
    [one] La foto muestra { $n }.
   *[other] La foto muestra { $n }.
    }
page-weigh-result = { $net } de peces, { $mean } cada uno.
page-weigh-need-gross = Introduzca la red con peces.
page-weigh-need-count = Introduzca cuántos peces hay dentro.
page-weigh-tare-too-much = La red sola no puede pesar tanto como la red con peces.
page-pad-title = Teclas numéricas
page-pad-erase = Borrar
page-pad-point = Separador decimal
page-pad-unit = en { $unit } – cambiar

page-look-title = Fotografiar la red
page-look-starting = La cámara se está iniciando.
page-look-none = No se ve ningún marcador. ¿Está la hoja en la imagen, y nítida?
page-look-night = Demasiado oscuro para ver un marcador.
page-look-missing = { $n } de { $of } marcadores en la imagen.
page-look-tilted = Inclinado unos { $deg }°. Sostenga el teléfono horizontal.
page-look-far = Demasiado lejos. Acérquese.
page-look-dark = Demasiado oscuro. Ponga luz.
page-look-bright = Demasiada luz. Dé sombra a los peces.
page-look-blurred = Borroso. No se mueva, o limpie la lente.
page-look-moving = No se mueva.
page-look-good = La hoja se ve bien: { $width } de ancho. ¿Están todos los peces?
page-look-taking = Se está tomando la foto.
page-look-taken = La foto está tomada.
page-look-shutter = Tomarla
page-look-auto = Tomarla sola cuando la hoja se vea bien
page-look-own = La cámara del teléfono
page-look-own-what = La cámara de la página muestra antes de tomar la foto si los marcadores están en
    la imagen, horizontales y nítidos.
page-look-own-always = Usar en su lugar la cámara del teléfono
page-look-own-how = Tome la foto con la cámara del teléfono; solo faltan los avisos antes de la
    toma.
page-look-refused = El navegador no deja que esta página use la cámara.
page-look-absent = El navegador no da ninguna cámara a esta página.
page-look-slow = Sin avisos: este teléfono es demasiado lento para ellos.
page-photo-title = Foto
page-photo-alt = Foto de la muestra de red
page-photo-no-picture = La imagen no se puede dibujar ni cargar. Longitudes y pesos quedan como están.
page-photo-gone = Esta foto ya no está en este teléfono.
page-photo-this = esta foto
page-photo-twice = Esta foto ya está en esta muestra.
page-photo-twice-advice = Quítela aquí; sus peces se cuentan una vez.
page-photo-measuring = Midiendo los peces.
page-photo-measured = { $n } peces encontrados.
page-photo-pending = Sus cambios están en camino.
page-photo-unusable = Haga esta foto de nuevo
page-photo-could-be-better = Esta foto podría ser mejor
page-photo-retake = Hacerla de nuevo
page-photo-remove = Quitar esta foto
page-photo-remove-sure = ¿Quitar esta foto de la red?
page-photo-delete = Borrar la imagen para siempre
page-photo-delete-sure = ¿Borrar esta imagen del servidor para siempre? Lo que se midió en ella se conserva, y también quién la borró. Las copias de seguridad anteriores aún la tienen.
page-photo-deleted = La imagen se borró el { $on } ({ $name }). Lo que se midió en ella se conserva.
page-photo-scale-by-hand = Dar la escala a mano
page-photo-add = Falta un pez
page-photo-weigh = Pesar red
page-photo-error = ± es un error estándar.
page-photo-outline = Los pesos de { $species } son por la altura de cada cuerpo además de su longitud: error estándar de alrededor del 15 %.
page-photo-book = Los pesos de { $species } por longitud salen solo de la relación publicada: error estándar 25 %.
page-photo-weigh-net = Pese la red.
page-photo-near = Acercar hasta los píxeles
page-photo-whole = Mostrar toda la foto
page-photo-look-doubtful = Mirar los peces dudosos
page-photo-next-doubtful = Siguiente dudoso
page-photo-used = { $n } usados
page-photo-doubtful = { $n } dudosos
page-photo-out = { $n } no usados
page-fish-title = Pez { $n }
page-fish-not-used = no usado
page-fish-drag = Arrastre hocico y horquilla a su lugar.
page-fish-measuring-again = midiendo de nuevo…
page-fish-leave-out = Dejar fuera
page-fish-use = Usarlo
page-fish-species = Especie
page-fish-undo = Deshacer
page-handle-snout = Hocico: arrástrelo, o use las flechas
page-handle-fork = Horquilla de la cola: arrástrela, o use las flechas
page-handle-snout-short = H
page-handle-fork-short = F
page-add-title = Añadir un pez que falta
page-add-first = Toque el hocico
page-add-second = Toque la horquilla de la cola
page-add-how = Mantenga el dedo para verlo ampliado; cuenta al soltar.
page-scale-title = Escala a mano
page-scale-first = Toque un extremo de una longitud conocida
page-scale-second = Toque su otro extremo
page-scale-how = Una regla o el borde de una tabla, a la altura de los peces. Mejor larga que corta.
page-scale-distance = ¿Cuánto mide?
page-scale-save = Medir con ella
page-species-choose = ¿Qué especie es?

page-answer-title = Respuesta, { $unit }
page-answer-nothing = Fotografíe o pese primero una red.
page-answer-waiting = El servidor calcula la respuesta en cuanto esté al alcance.
page-answer-kept = Sus fotos y pesadas están seguras en este teléfono.
page-answer-mean = Peso medio
page-answer-interval = { $range } con { $percent } % de confianza
page-answer-from = De { $weighed } peces pesados en redes y { $measured } medidos en fotos
page-answer-chain = Esta muestra: { $own }; con todas las anteriores: { $all }.
page-answer-taken-off = { $name ->
        [drip] Agua de escurrido descontada de las redes: { $percent } %, { $grams }.
        [doubt] Descontado de la media de los peces pescados, pues una red puede estar mal: { $percent } %, { $grams }.
       *[netting] Descontado de la media, pues los peces pescados pesan más: { $percent } %, { $grams }.
    }
page-answer-spread = Dispersión
page-answer-spread-alt = Cómo se dispersan los pesos de los peces.
page-answer-cv = Coeficiente de variación
page-answer-small = Percentil 10
page-answer-large = Percentil 90
page-answer-fork-length = Longitud furcal media
page-answer-condition = Factor de condición
page-answer-biomass = Biomasa
page-answer-for-count = para { $n } peces
page-answer-nets = Las redes
page-answer-next = { $verdict ->
        [enough] La media se conoce a ±{ $now } %: para ±{ $percent } % no hace falta otra red.
        [worth-it] La media se conoce a ±{ $now } %. Otra red de { $fish } peces vale la pena y da ±{ $then } %; unas { $n } más dan ±{ $percent } %.
       *[other] La media se conoce a ±{ $now } %; más redes apenas dan ±{ $percent } %. Pese una parte contada de la unidad.
    }
page-answer-save = Guardar en el libro
page-answer-saving = Se está guardando; ocurre solo cuando el servidor esté al alcance.
page-answer-saved = Guardado en el libro.
page-answer-to-unit = A la unidad

page-chart-how = Toque el gráfico para ver sus cifras; con el teclado, las flechas.
page-chart-of = Cifras del { $date }.
page-chart-sample = Muestra
page-chart-forecast = Previsión
page-chart-ahead = { $cohort }: previsión con su intervalo
page-chart-samples = { $cohort }: muestras
page-chart-plate = Talla comercial { $weight }
page-chart-sizes = Pesos de los peces hoy, frente a la talla comercial
page-chart-fish = peces
page-chart-x = Peso de un pez, { $unit }
page-chart-load = Biomasa prevista frente al límite más próximo
page-chart-load-limit = Límite más próximo: { $limit }; con seguridad por debajo hasta { $safe }, probablemente hasta { $likely }
page-chart-limit-density = densidad de cultivo
page-chart-limit-density-index = índice de densidad
page-chart-limit-flow-index = índice de flujo
page-chart-limit-oxygen = aporte de oxígeno
page-chart-limit-ammonia = amoníaco
page-chart-limit-safe = Con seguridad bajo el límite
page-chart-limit-likely = Límite probable
page-chart-oxygen = Oxígeno tras: { $what }
page-chart-after = A las { $hours } h
page-chart-oxygen-expected = Oxígeno con su intervalo
page-chart-caution = Precaución { $value } mg/L
page-chart-critical = Crítico { $value } mg/L

page-plan-title = Plan, { $unit }
page-plan-kept = Cifras de { $when }; el servidor calculará otras cuando esté al alcance.
page-plan-unknown = Ahora no se puede decir; lo que falta está arriba.
page-plan-harvest = Cosecha por semanas
page-plan-feed = Pienso
page-plan-room = Sitio para alevines
page-plan-outage = Corte de luz y otras paradas
page-plan-harvest_weeks = Semanas de cosecha
page-plan-harvest_count = Peces más grandes sacados cada semana
page-plan-feed_days = Días de alimentación
page-plan-room_days = Días que debe durar el sitio
page-plan-fingerling_weight_g = Peso de un alevín
page-plan-outage_hours = Horas que hay que resistir
page-plan-weeks = { $n ->
    [one] { $n } semana
   *[other] { $n } semanas
    }
page-plan-days = { $n ->
    [one] { $n } día
   *[other] { $n } días
    }
page-plan-short = Hay { $n } peces menos de los pedidos.
page-plan-room-note = { $value } ahora; no se superará ningún límite hasta el { $date }.
page-plan-take-out = No hay sitio: { $n } peces deben salir antes del { $date }, cuando puede superarse un límite.
page-plan-outage-note = de peces viven con seguridad tanto tiempo tras: { $what }. Probablemente { $likely }.
page-plan-now = Ahora en la unidad
page-plan-critical = Con ellos, hasta { $value } mg/L, al menos

page-upload-progress = Enviado al servidor
page-upload-percent = { $n } % enviado
page-upload-measuring = midiéndose…

page-now-measure = Anotar una medida del agua
page-now-waits = hasta que mejore el agua: { $what }
page-now-about-oxygen = oxígeno
page-now-about-temperature = temperatura
page-now-about-ammonia = amoníaco
page-now-about-nitrite = nitrito
page-now-about-alkalinity = alcalinidad
page-now-about-ph = pH
page-now-about-nitrate = nitrato
page-now-no-feed = ninguno
page-now-no-room = ninguno
page-now-handling = Pescar, muestrear, clasificar
page-now-no-handling = ahora no
page-now-read-first = Mida temperatura y oxígeno antes de añadir peces.
page-outlook-title = Lo que significa
page-outlook-level = Los intervalos valen con { $percent } % de confianza; «hasta», «en» y «al menos» dan sus extremos.
page-outlook-feed = Alimento hoy
page-outlook-feed-week = { $value } en los próximos siete días
page-outlook-plate = La mitad en talla comercial ({ $weight })
page-outlook-in-days = { $n ->
    [one] mañana
   *[other] en { $n } días
    }
page-outlook-now = ahora
page-outlook-later = más tarde de lo previsto
page-outlook-beyond = no en dos años
page-outlook-half-between = { $from } a { $to }
page-outlook-first = los primeros: { $date }
page-outlook-last = casi todos: { $date }
page-outlook-ready = Peces en talla comercial ahora
page-outlook-about = alrededor de { $value }
page-outlook-surely = { $value } de ellos con seguridad
page-outlook-none-sure = quizá ninguno: los pesos no se conocen con bastante precisión
page-outlook-conversion = Factor de conversión alimenticia hasta ahora
page-outlook-condition = Condición
page-outlook-factor = factor de condición { $value } ({ $low } a { $high })
page-condition-low = baja
page-condition-normal = normal
page-condition-high = alta
page-outlook-grade = Vale la pena clasificar
page-outlook-grade-at = por debajo de { $small }, por encima de { $large }
page-outlook-limit = Límite de { $name }, usado
page-limit-oxygen = Aporte de oxígeno, usado
page-limit-density = Densidad de cultivo, usada
page-limit-ammonia = Límite de amoníaco, usado
page-outlook-up-to = hasta { $value }
page-outlook-room = Sitio que queda
page-outlook-room-note = antes del primer límite
page-outlook-take-out = Peces que retirar
page-outlook-take-out-note = para que no se pase ningún límite hasta el { $date }
page-outlook-likely = probable { $value }
page-outlook-outage = { $what }: actuar
page-outlook-act-within = en { $time }
page-outlook-pumped = se toma como bombeada: sin agua nueva en un corte de luz; cambie la unidad si entra por gravedad
page-outlook-to-critical = { $value } mg/L de oxígeno, crítico: probable después de { $likely }, como máximo { $most }
page-outlook-to-caution = { $value } mg/L, alerta: en { $time }
page-outlook-helps = { $what } da al menos { $time }
page-outlook-no-hours = { $what }: { $note }
page-outlook-not-within-a-day = no en un día
page-time-minutes = { $n } min
page-time-hours = { $hours } h { $minutes } min
page-time-day-or-more = un día o más

page-book-title = Libro, { $unit }
page-book-add = Anotación nueva
page-book-empty = Aún no hay nada anotado para esta unidad.
page-entry-stocked = Siembra
page-entry-died = Muertos
page-entry-harvested = Cosecha
page-entry-sold = Venta
page-entry-moved = Traslado
page-entry-graded = Clasificación
page-entry-counted = Recuento
page-entry-sample = Muestra
page-entry-stock-measured = Peces fotografiados y pesados
page-entry-spawning = Maduros o en puesta
page-entry-feed = Alimento
page-entry-feed-bought = Alimento comprado
page-entry-treated = Tratamiento
page-entry-water = Medida del agua
page-entry-cancelled = Anulada
page-entry-mean = { $value } por pez
page-entry-to = a { $unit }
page-entry-by = por { $name }
page-entry-show-sample = Fotos, redes y avisos
page-grading-group = Grupo { $n }
page-grading-stays = Se queda en { $unit }
page-grading-to_unit_id = Adónde va
page-grading-fish_count = Peces
page-grading-fish_count_sd = Puede fallar en
page-grading-weight_kg = Todos juntos
page-grading-mean_weight_g = Cada uno, de media
page-grading-add = Añadir un grupo
page-grading-remove = Quitar el grupo { $n }
page-grading-how = Cuente lo que sale; basta un peso de cada grupo, o ninguno. Cuente también lo que se queda si puede: así la clasificación cuenta de nuevo la unidad.
page-grading-no-other = No hay otra unidad a la que pueda ir un grupo.
page-grading-sizes = Percentil 10 { $small } ({ $small_length }), percentil 90 { $large } ({ $large_length }).
page-grading-advised = Difieren lo bastante para que valga la pena clasificar.
page-grading-not-advised = Están próximos entre sí: ahora apenas vale la pena clasificar.
page-grading-check = Comprobar
page-grading-nothing-goes = Indique al menos un grupo que vaya a otra unidad.
page-grading-same-unit = Dos grupos van a la misma unidad: haga uno solo.
page-grading-stay-uncounted = Cuente también los que se quedan, o deje vacío su peso.
page-grading-together = { $shown } peces en total; el libro tiene { $book }.
page-grading-far = Eso está fuera del intervalo del libro. Cuente de nuevo, o busque peces que murieron o salieron sin verse.
page-grading-rest = { $rest } se quedan según el libro, menos los que salen.
page-grading-too-many = Salen más de los que tiene el libro ({ $book }). Cuente de nuevo.
page-grading-mean = { $mean } por pez en todos los grupos; el libro tiene { $book }.
page-grading-mean-far = Eso está fuera del intervalo del libro. Revise los pesos.
page-grading-rest-mean = Los que se quedan tienen entonces { $mean } por pez.
page-grading-rest-mean-odd = Los pesos no concuerdan: quedarían { $mean } por pez. Revíselos.
page-grading-room = { $weight } a { $unit }, que tiene sitio para { $room }.
page-grading-no-room = { $weight } a { $unit }, que tiene sitio para { $room } antes de su primer límite.
page-grading-full = { $weight } a { $unit }, que ya está en su límite.
page-grading-after = Muestree pronto cada unidad: clasificar cambia cuánto difieren los pesos.
page-entry-correcting = Corrige usted una anotación. La anterior queda registrada, pero ya no cuenta.
page-entry-save = Guardar la anotación
page-entry-save-correction = Guardar la corrección
page-entry-take-back = Anular esta anotación
page-entry-take-back-sure = ¿Anular esta anotación? Queda registrada, pero ya no cuenta.
page-reading-temperature_deg_c = { $value }
page-reading-do_mg_per_l = { $value } de oxígeno
page-reading-ph = pH { $value }
page-reading-tan_mg_per_l = { $value } de TAN
page-reading-nitrite_n_mg_per_l = { $value } de N de nitrito
page-reading-nitrate_n_mg_per_l = { $value } de N de nitrato
page-reading-alkalinity_mg_per_l = alcalinidad { $value }
page-reading-chloride_mg_per_l = { $value } de cloruro

page-ask-title = ¿Está bien?
page-ask-outside = Se anota { $entered }; se espera { $expected } (de { $low } a { $high }).
page-ask-too-much = Se anota { $entered }; según el libro hay { $most }.
page-ask-each = { $weight } por pez
page-ask-would-fit = Con { $what } cuadraría.
page-ask-right = Está bien
page-ask-correct = Corregir
page-ask-gone = Esta pregunta ya tiene respuesta.
page-entry-confirmed = Se preguntó y se confirmó.

page-waiting-title = Salida
page-waiting-count = { $n } sin enviar aún
page-waiting-photo = Foto, { $unit }
page-waiting-sample = Muestra, { $unit }
page-waiting-kept = Todo lo de abajo se guarda en este teléfono, también al cerrar la página.
page-waiting-nothing = Todo ha llegado al servidor.
page-waiting-now = Intentar ahora
page-waiting-arrived = Llegado
page-waiting-retry = Intentar de nuevo
page-waiting-give-up = Desistir
page-waiting-give-up-sure = ¿Borrarlo del teléfono? El servidor no lo tiene.

page-pair-title = Emparejar este teléfono
page-pair-how = El servidor deja entrar a los teléfonos que conocen su código. Se muestra donde se arrancó el servidor y vale unos minutos.
page-pair-scanned = La imagen ha traído el código. Dé un nombre a este teléfono: figura junto a todo lo que se anota con él.
page-pair-code = Código
page-pair-code-hint = Ocho cifras; un espacio no importa.
page-pair-name = Nombre de este teléfono
page-pair-usual-name = Mi teléfono
page-pair-save = Emparejar
page-pair-wait = Demasiados intentos. Espere { $n } segundos.

page-settings-title = Ajustes
page-settings-language = Idioma
page-settings-units = Unidades de medida
page-settings-metric = g, kg, mm, °C, L
page-settings-imperial = oz, lb, in, °F, gal
page-settings-printed = Su hoja impresa
page-settings-printed-how = Las impresoras encogen. Mida la línea de control de la hoja e introduzca su longitud; así las longitudes son correctas.
page-settings-check-line = Línea de control, debe ser { $length }
page-settings-printed-now = Las fotos nuevas se miden para una impresión al { $percent } %.
page-settings-paper-how = Casi siempre los marcadores dicen el papel. Elíjalo donde solo se vean dos.
page-settings-lens = El objetivo de su teléfono
page-settings-lens-how = Un perfil hace más seguras las longitudes: fotografíe el tablero impreso desde varios lados, ejecute «fishmeasure lens» con las fotos y añada aquí el archivo.
page-lens-usual = Sin perfil: como suelen ser los teléfonos
page-lens-every-camera = para cualquier cámara
page-lens-gone = el servidor no lo tiene
page-lens-add = Añadir un perfil
page-lens-no-profile = { $file } no es un perfil de objetivo. Haga uno con «fishmeasure lens».
page-lens-replace = El servidor tiene otro perfil «{ $name }». ¿Sustituirlo?
page-paper-seen = Lo dicen los marcadores
page-paper-sheet = Hoja en { $paper }
page-how-title = Hoja y objetivo
page-how-paper = Hoja impresa
page-how-lens = Perfil de objetivo
page-how-save = Medir con ello
page-how-corrected = La foto se mide de nuevo; lo que corrigió en ella hay que hacerlo otra vez.
page-how-markers = { $n ->
    [one] { $n } marcador
   *[other] { $n } marcadores
    }
page-how-method-sheet = Escala de la hoja
page-how-method-loose-markers = Escala de tarjetas sueltas
page-how-method-single-marker = Escala de una tarjeta
page-how-method-known-distance = Escala a mano
page-how-focal-lens-profile = perfil de objetivo { $lens }
page-how-focal-exif = distancia focal de la foto
page-how-focal-markers = distancia focal de los marcadores
page-how-focal-typical = el objetivo de un teléfono usual
page-how-lens-unused = El perfil de objetivo «{ $lens }» es de otra cámara y no se usó.
page-settings-export = Sus cifras
page-settings-export-how = Todo lo que tiene el servidor, para guardarlo o trabajarlo en otra parte.
page-settings-export-all = Todo (JSON)
page-settings-export-entries = Libro (CSV)
page-settings-server = Servidor
page-settings-version = Versión
page-settings-reach = Conexión
page-settings-reached = al alcance
page-settings-not-reached = fuera de alcance
page-settings-paired = Solo teléfonos emparejados
page-settings-no-pairing = no
page-settings-pair-again = Emparejar de nuevo
page-settings-insecure = Esta página llegó por HTTP simple: otros en la misma red podrían leer lo que pasa. Sin red funciona solo mientras el navegador la conserve, lo que espera aquí puede desecharse si falta espacio, y la página no puede mostrar una imagen propia de la cámara.
page-settings-me = Este teléfono
page-settings-kept = Se guarda hasta enviarlo
page-settings-kept-yes = sí, aunque falte espacio
page-settings-kept-no = mientras haya espacio

page-role-reader = puede mirar
page-role-worker = puede anotar, fotografiar y muestrear
page-role-owner = puede hacer todo

page-roles-title = No es para este teléfono
page-roles-only-worker = Solo lo hace un teléfono que puede anotar.
page-roles-only-owner = Solo lo hace el teléfono del propietario.
page-roles-ask = El propietario puede dejar que este teléfono haga más: Ajustes, «Dispositivos».

page-fit-title = Fotografiar y pesar cinco peces
page-fit-work = ¿Qué enseñan?
page-fit-how-title = Cómo
page-fit-how-1 = Tome cinco peces de las tallas que cría, en ayunas desde hace un día.
page-fit-how-2 = Póngalos de costado junto a la hoja, vientre y lomo libres, y fotografíelos en vertical desde arriba; dos fotos son mejor que una.
page-fit-how-3 = Pese cada uno enseguida, secado, a 1 g o 1 %.
page-fit-how-4 = Escriba cada peso junto al número del pez. Al lado puede ir la longitud furcal leída con regla.
page-fit-cannot = Ningún contorno distingue peces maduros, tripas llenas o vientres hinchados de peces gordos.
page-fit-page = Instrucciones con tabla, para imprimir
page-fit-photos = Fotos
page-fit-take = Fotografiar peces
page-fit-choose = Elegir fotos
page-fit-sampled = O fotos de los muestreos de esta unidad:
page-fit-use = Usar esta foto
page-fit-picture = La foto con sus peces numerados
page-fit-none = Ningún pez de esta foto se puede usar.
page-fit-fish = Pez { $n }, { $length }
page-fit-weight = Peso
page-fit-ruler = Longitud furcal con regla
page-fit-ripe = Los peces están maduros o en puesta
page-fit-is-ripe = Estos peces pueden estar maduros o en puesta: los pesos por foto son menos seguros, y nada de lo aprendido pasa más allá de la puesta.
page-fit-known = Lo que se sabe de este lote
page-fit-known-usual = Nada aún de sus propios peces: esto es lo publicado de la especie, si hay algo, y cuánto difieren los lotes.
page-fit-constant = Peso para el contorno (c), g/cm³
page-fit-nothing = Elija una foto y escriba los pesos de al menos tres de sus peces.
page-fit-taught = Lo que enseñan los peces
page-fit-after = Peso para el contorno (c) de estos peces, g/cm³
page-fit-before = Como se sabía antes
page-fit-mean-after = Peso medio por estas fotos, según lo aprendido
page-fit-mean-before = Por estas fotos como antes
page-fit-left-out = Un pez, dicho por los demás, difiere en
page-fit-by-length = solo por longitud { $share }
page-fit-keep = Guardar para este lote

page-devices-title = Dispositivos
page-devices-invite = Dejar entrar otro teléfono
page-devices-invite-how = Elija lo que puede hacer. Ponga después esta imagen ante su cámara.
page-devices-invite-reader = Para mirar
page-devices-invite-worker = Para anotar, fotografiar y muestrear
page-devices-invite-owner = Como propietario, para todo
page-devices-qr-alt = Una imagen de la dirección y del código { $code }
page-devices-scan = Apunte con la cámara del otro teléfono en los próximos { $n } minutos; empareja un teléfono. O introduzca allí este código:
page-devices-none = No hay ningún dispositivo emparejado.
page-devices-this = { $name } (este teléfono)
page-devices-role = Lo que puede hacer
page-devices-seen = Visto por última vez
page-devices-never = no se sabe
page-devices-today = hoy
page-devices-paired = Emparejado
page-devices-ends = El emparejamiento acaba si no se usa
page-devices-ended = ha acabado
page-devices-change = Cambiar nombre o permiso, o desemparejar
page-devices-name = Nombre
page-devices-save = Guardar
page-devices-unpair = Desemparejar
page-devices-unpair-sure = ¿Desemparejar { $name }? Ya no se le deja entrar. Lo que anotó se conserva.
page-devices-demote-sure = Entonces este teléfono no podrá deshacerlo. Otro teléfono del propietario, o el código donde se arrancó el servidor, sí.

page-guide-title = Guía
page-guide-cautions = Precauciones
page-guide-print = 1. Imprima la hoja
page-guide-print-alt = Una hoja con un marcador en cada esquina; una regla a lo largo de su línea de control de 100 mm.
page-guide-print-1 = Imprima al 100 %, no «ajustar a página», en papel mate.
page-guide-print-2 = Mida la línea de control e introduzca su longitud en Ajustes.
page-guide-print-3 = Déjela sin cubrir: el brillo y las fundas de plástico deslumbran. Imprímala de nuevo cuando esté gastada.
page-guide-print-4 = También vale una tabla o bandeja con las cuatro tarjetas sueltas en sus esquinas.
page-guide-sheet-sheet = Hoja, { $paper }
page-guide-sheet-cards = Cuatro tarjetas sueltas, { $paper }
page-guide-sheet-single = Una tarjeta, { $paper }
page-guide-sheet-tub = Hoja para una tina con agua, { $paper }
page-guide-sheet-tub-cards = Cuatro tarjetas para una tina, { $paper }
page-guide-sheet-dummy = Pez de prueba de 200 mm, { $paper }
page-guide-sheet-lens-board = Tablero para medir un objetivo, { $paper }
page-guide-lay = 2. Ponga los peces
page-guide-lay-alt = Seis peces separados alrededor de la hoja sobre una tabla mojada.
page-guide-lay-1 = Moje primero la tabla y las manos.
page-guide-lay-2 = Ponga los peces de lado, rectos, separados, sobre la hoja o junto a ella en la misma superficie.
page-guide-lay-3 = Deje los marcadores libres y secos para que no brillen.
page-guide-lay-4 = Lo mejor es una tabla lisa de otro tono que los peces.
page-guide-lay-5 = Fotografíe en segundos y devuelva los peces.
page-guide-above = 3. En vertical desde arriba
page-guide-above-alt = Un teléfono horizontal sobre la hoja, a 60 a 90 centímetros; se ven todos los peces.
page-guide-above-1 = Sujete el teléfono horizontal, a 60 a 90 cm sobre los peces.
page-guide-above-2 = Todos los peces y marcadores a la vista, nada cortado.
page-guide-above-3 = Mejor sombra que sol; sin flash.
page-guide-above-4 = Toque un pez para enfocar, no se mueva.
page-guide-weigh = 4. Pese la red
page-guide-weigh-alt = Una red con peces en una balanza colgante, y la misma red vacía y mojada.
page-guide-weigh-1 = Levante la red y deje escurrir siempre el mismo tiempo, unos diez segundos.
page-guide-weigh-2 = Lea la balanza: red con peces.
page-guide-weigh-3 = Cuente los peces al devolverlos, dos veces si duda.
page-guide-weigh-4 = Pese la red mojada sola tras escurrir el mismo tiempo.
page-guide-weigh-5 = Tres redes o más: muestran si concuerdan.
page-guide-spots = 5. Una muestra justa
page-guide-spots-alt = Un tanque redondo visto desde arriba; los peces están reunidos tras una red y se pescan en tres lugares.
page-guide-spots-1 = La primera red no es una muestra justa: los atrevidos y hambrientos llegan primero. Reúna los peces con suavidad.
page-guide-spots-2 = Pesque en varios lugares y profundidades.
page-guide-spots-3 = Tome todos los peces de una redada; no elija.
page-guide-spots-4 = No alimente antes; muestree con el fresco de la mañana.
page-guide-spots-5 = Pare cuando los peces boqueen o estén de lado.

page-species-rainbow-trout = Trucha arcoíris
page-species-arctic-char = Salvelino ártico
page-species-atlantic-salmon = Salmón atlántico
page-species-barramundi = Barramundi
page-species-bluegill = Mojarra azul
page-species-brook-trout = Salvelino de arroyo
page-species-brown-trout = Trucha común
page-species-channel-catfish = Bagre de canal
page-species-common-carp = Carpa común
page-species-grayling = Tímalo
page-species-lake-trout = Trucha lacustre
page-species-nile-tilapia = Tilapia del Nilo
page-species-perch = Perca europea
page-species-pikeperch = Lucioperca
page-species-sea-bass = Lubina
page-species-silver-perch = Perca plateada
page-species-tench = Tenca
