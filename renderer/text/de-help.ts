import type { enHelp } from './en-help.ts';

/** Words of the help in German. Titles of publications stay as they were printed. */
export const deHelp: Record<keyof typeof enHelp, string> = {
  'help.title': 'Hilfe',
  'help.open': 'Hilfe',
  'help.measures': 'Was bewertet wird',
  'help.more': 'Am Schneidplatz',
  'help.means': 'Was es bedeutet',
  'help.matters': 'Warum es am echten Metall zählt',
  'help.better': 'Wie es besser geht',
  'help.picture': 'Links: wie es sein soll. Rechts: wie nicht.',
  'help.of': 'Was gemeint ist mit: {measure}',
  'help.whole': 'Die ganze Hilfe',
  'help.keys': 'Tasten und Bedienung',
  'help.cautions': 'Warnungen',
  'help.fading': 'Warum die Hilfen weniger werden',
  'help.cautions.lead':
    'Was am echten Blech verletzt, mit dem veröffentlichten Wert und seiner Quelle. Das ist eine Erinnerung, keine Unterweisung: Es entscheiden die Leute und Papiere, die am Ende genannt sind.',

  'help.severance.means':
    'Wie viel der Linie von oben bis unten durchgeschnitten ist. Metall, das irgendwo noch hält, zählt als nicht geschnitten, wie tief die Rille auch ist.',
  'help.severance.matters':
    'Ein Stück, das noch hängt, muss abgebrochen oder abgeschliffen werden: Es verbiegt, es reißt, und es fällt, wenn niemand damit rechnet.',
  'help.severance.better':
    'Geh nicht los, bevor unten Funken herauskommen. Solange sie kommen, geht der Schnitt durch; sobald sie hochfliegen, halt an und geh zurück.',

  'help.travel-speed.means':
    'Wie schnell der Brenner die Linie entlangfährt, gemessen an dem Fenster, in dem dieses Metall bei diesem Strom sauber geschnitten wird.',
  'help.travel-speed.matters':
    'Zu schnell, und die Unterseite bleibt zurück, bis der Schnitt abreißt. Zu langsam, und die Schnittfuge wird breiter, die Kante überhitzt, und unten hängt Bart.',
  'help.travel-speed.better':
    'Richte dich nach den Funken unten, nicht nach der Uhr: Ein wenig Nachlauf ist richtig. Geh den ganzen Weg einmal ohne Lichtbogen ab.',

  'help.spark-angle.means':
    'Wie weit der Funkenstrahl unter dem Blech hinter der Senkrechten nachläuft. Hier sind 15–30° für die meisten Schnitte richtig (übliche Praxis; keine veröffentlichte Quelle).',
  'help.spark-angle.matters':
    'Es ist das eine Zeichen für die Geschwindigkeit, das das Metall gibt, solange noch Zeit ist: Es zeigt, wie weit der Schnitt unten hinter oben zurückliegt.',
  'help.spark-angle.better':
    'Funken zu flach: langsamer. Gerade nach unten: etwas schneller. Behalte die Ansicht unter dem Blech im Blick.',

  'help.squareness.means':
    'Ob der Griff so gehalten wird, wie die Übung es verlangt: senkrecht für eine rechtwinklige Schnittfläche, oder in seiner Fase. Neigung quer zur Linie zählt ebenso wie längs.',
  'help.squareness.matters':
    'Der Schnitt geht dorthin, wohin der Lichtbogen zeigt. Ein schiefer Brenner macht eine schräge Schnittfläche und ein Teil, das nicht passt.',
  'help.squareness.better':
    'Stütz die Hand auf und bewege dich aus der Schulter, damit das Handgelenk sich nicht drehen muss. {uprightKey} oder die mittlere Maustaste richtet den Brenner auf.',

  'help.stand-off.means': 'Abstand von der Spitze zur Oberseite des Blechs, solange der Lichtbogen brennt.',
  'help.stand-off.matters':
    'Weiter weg wird der Lichtbogen breit: breite Schnittfuge, runde Oberkante, weniger Tiefe. Zu nah, und die Spitze berührt, und die Teile verschleißen.',
  'help.stand-off.better':
    'Stütz die Hand auf etwas, das mitgleitet. Achte auf den Ring um die Spitze: Zwischen den dünnen ist richtig.',

  'help.line-following.means': 'Wie weit die Spitze neben dem Kreidestrich ist.',
  'help.line-following.matters':
    'Die Schnittfuge ist dort, wo der Brenner war, nicht dort, wo die Linie ist. Eine halbe Schnittfuge zu weit, und das Teil ist Ausschuss. Wo der Schnitt weit über das Doppelte der Toleranz hinaus abkommt, ist der Lauf nicht bestanden, so gut der Rest auch ist.',
  'help.line-following.better':
    'Stell dich so, dass du die Linie vor dem Brenner siehst, und schau, wohin du fährst, nicht auf den Lichtbogen. Eine Führung kann es besser als jede Hand.',

  'help.edge-dwell.means': 'Wie lange der Brenner an der Kante wartet: bis der Lichtbogen durch ist, und nicht länger.',
  'help.edge-dwell.matters':
    'Zu früh los, bleibt die untere Ecke stehen, und der Schnitt kann gleich abreißen. Zu lange gewartet, ist der Anfang breit gebrannt.',
  'help.edge-dwell.better': 'Halte die Mitte des Lichtbogens über die Kante. Unten kommen Funken: los.',

  'help.steadiness.means': 'Wie gleichmäßig die Geschwindigkeit unterwegs ist, und ob der Brenner stehen geblieben ist.',
  'help.steadiness.matters':
    'Jeder Halt ist eine Kerbe in der Schnittfläche und eine heiße Stelle im Teil; jeder Ruck ist eine Stelle, die nicht durch ist.',
  'help.steadiness.better':
    'Such einen Stand, aus dem du bis ans Ende reichst. Fang langsamer an, als du denkst, und ändere unterwegs nichts.',

  'help.end-of-cut.means': 'Wie der Schnitt endet: bis ans Ende geführt, unten kein Steg, und der Lichtbogen rechtzeitig aus.',
  'help.end-of-cut.matters':
    'Unten liegt der Schnitt zurück; darum bleibt am Ende ein Steg, wo er oben schon durch ist. Ein Lichtbogen, der an bleibt, verbrennt, was hinter dem Blech liegt.',
  'help.end-of-cut.better': 'Werd kurz vor dem Ende etwas langsamer, lass die Unterseite nachkommen, dann lass los.',

  'help.pierce.means':
    'Ein Loch mitten im Blech öffnen: richtige Höhe oder Neigung, gehalten, bis es durch ist, mit so wenig Rückwurf wie möglich.',
  'help.pierce.matters':
    'Solange es unten keinen Ausweg gibt, kommt die ganze Schmelze nach oben. Sie verstopft die Spitze, ruiniert die Teile und landet auf Händen und Ärmeln.',
  'help.pierce.better':
    'Aufrichtend: Fang stark gekippt an, damit es von dir wegfliegt, dann richte in etwa zwei Sekunden auf. Fahr erst los, wenn unten Funken herauskommen.',

  'help.groove-depth.means': 'Wie tief und wie breit die Fuge ist, gemessen an dem, was die Übung verlangt.',
  'help.groove-depth.matters':
    'Zu flach lässt den Fehler drin, der herauskommen sollte. Zu tief nimmt gesundes Metall weg, das wieder zugeschweißt werden muss.',
  'help.groove-depth.better':
    'Neigung und Geschwindigkeit machen die Tiefe: steiler oder langsamer ist tiefer. Lieber zwei leichte Durchgänge als ein schwerer.',

  'help.groove-evenness.means': 'Wie sehr sich die Tiefe der Fuge von einem Ende zum anderen ändert.',
  'help.groove-evenness.matters':
    'Ein welliger Grund verbirgt Fehler, hält Schlacke unter der nächsten Naht fest und ist länger zu schleifen, als die Fuge zu hobeln war.',
  'help.groove-evenness.better':
    'Eine Neigung, eine Höhe, eine Geschwindigkeit. Schau auf das Schmelzbad und führ es überall gleich schnell.',

  'help.part-size.means': 'Ob das Teil auf Maß herauskommt, wenn die Breite der Schnittfuge abgezogen ist.',
  'help.part-size.matters':
    'Die Schnittfuge hat eine Breite. Auf der Mitte der Linie geschnitten, ist das Teil ringsum eine halbe Schnittfuge zu klein.',
  'help.part-size.better':
    'Halte dich auf der Abfallseite. Stell eine Führung nach dem Rand der Brennerfront ein und probier sie ohne Lichtbogen aus.',

  'help.gap-crossing.means': 'Ob der Lichtbogen über Löcher und Schlitze kommt und dahinter ohne neuen Start wieder zündet.',
  'help.gap-crossing.matters':
    'Über einer Öffnung hat der Lichtbogen nichts, woran er sich hält. Jeder Abriss ist ein neuer Start, und Starts verschleißen die Teile.',
  'help.gap-crossing.better':
    'Stell die Stromquelle auf Öffnungen, halte den Brennertaster gedrückt und die Spitze nah, und werd über dem Loch nicht langsamer.',

  'help.cut-quality.means': 'Wie die Schnittfläche aussieht: wie rechtwinklig, wie rau, wie viel Bart an der Unterkante.',
  'help.cut-quality.matters':
    'Eine saubere Schnittfläche wird verschweißt, wie sie ist. Bart wird abgeschlagen, eine Schräge geschliffen, und an einer rauen Kante beginnen Risse, wo das Teil belastet ist.',
  'help.cut-quality.better':
    'Richtige Geschwindigkeit, senkrechter Brenner, richtige Höhe, in dieser Reihenfolge. Wenig Bart bei hoher Geschwindigkeit sitzt fest; viel bei niedriger geht mit einem Schlag ab.',

  'help.torch-parts.means':
    'Wie viel von der Standzeit der Elektrode, der Düse und der Schutzkappe dieser Lauf verbraucht hat, gemessen an dem, was die Arbeit verlangt.',
  'help.torch-parts.matters':
    'Verschlissene Teile lassen den Lichtbogen wandern und die Schnittfläche schräg werden, wie gut die Hand auch ist. Sie kosten mehr als das Gas.',
  'help.torch-parts.better':
    'Wenige Starts, lange Schnitte. Bleib vom Metall weg, stich in der richtigen Höhe, lass das Gas nach dem Lichtbogen nachströmen.',

  'help.rig-check.means':
    'Ob die Anlage vor dem Lichtbogen in Ordnung war: Teile, Betriebsart, Strom, Gas, Klemme, Ort und Person.',
  'help.rig-check.matters':
    'Die meisten schlechten Schnitte und die meisten Unfälle entscheiden sich vor dem Brennertaster: eine Klemme auf Farbe, Wasser in der Luft, etwas Brennbares hinter dem Blech.',
  'help.rig-check.better':
    'Immer in derselben Reihenfolge. Die Klemme kommt auf blankes Metall des Teils, das bleibt, nie auf das Stück, das fällt.',

  'help.fault-finding.means':
    'Ob du genannt hast, was an der Anlage nicht stimmte, und die richtige Abhilfe, aus dem, was zu sehen und zu hören war.',
  'help.fault-finding.matters':
    'Teile auf gut Glück zu wechseln kostet Geld und verdeckt die Ursache. Sie kommt mitten in der nächsten Arbeit wieder.',
  'help.fault-finding.better':
    'Probier den Brenner, schau und hör hin, dann frag, welcher einzelne Fehler alle diese Zeichen zeigen würde. Fass keine Teile an, solange die Stromquelle an ist.',

  'help.fading.lead':
    'Der Schneidplatz sagt dir bei den ersten Versuchen viel, dann jedes zweite Mal, dann nichts. Das ist Absicht: Echtes Blech sagt dir nur, was das Metall zeigt.',
  'help.fading.guidance.say':
    'Nach jedem Versuch Bescheid zu bekommen, lässt die Übung gut aussehen und das, was bleibt, schlechter werden: Gelernt ist, was geht, wenn niemand mehr etwas sagt.',
  'help.fading.guidance.source':
    'Salmoni, A. W., Schmidt, R. A. und Walter, C. B. (1984). Knowledge of results and motor learning: a review and critical reappraisal. Psychological Bulletin 95, 355–386.',
  'help.fading.half.say':
    'Nach der Hälfte der Versuche Bescheid, anfangs mehr und später weniger, war in einem späteren Test ohne Bescheid besser als nach allen.',
  'help.fading.half.source':
    'Winstein, C. J. und Schmidt, R. A. (1990). Reduced frequency of knowledge of results enhances motor skill learning. Journal of Experimental Psychology: Learning, Memory, and Cognition 16, 677–691.',
  'help.fading.again.say':
    'Wiedergefunden bei 46 Erwachsenen an vier Tagen: Von ganz, halb und abnehmend blieb abnehmend nach einem Tag bis zwei Wochen am besten.',
  'help.fading.again.source': 'Journal of Physical Therapy Science 31 (2019), S. 687–691.',
  'help.fading.summary.say':
    'Über viele Versuche zusammen Bescheid zu bekommen, machte das Üben schlechter und das, was blieb, besser.',
  'help.fading.summary.source': 'Schmidt, R. A. und andere (1989), über zusammengefasste Ergebnisse.',
  'help.fading.order.say':
    'Gemischte Reihenfolge ist beim Üben schwerer und danach besser: Darum wechselt auf deiner Seite, was als Nächstes kommt.',
  'help.fading.order.source':
    'Shea, J. B. und Morgan, R. L. (1979). Contextual interference effects on the acquisition, retention, and transfer of a motor skill. Journal of Experimental Psychology: Human Learning and Memory 5, 179–187.',
  'help.fading.caution.say':
    'Vorsicht: Befunde aus einfachen Aufgaben im Labor gelten nicht alle für Fertigkeiten, die so reich sind wie diese. Urteile nach deiner eigenen Kurve.',
  'help.fading.caution.source':
    'Wulf, G. und Shea, C. H. (2002). Principles derived from the study of simple skills do not generalize to complex skill learning. Psychonomic Bulletin & Review 9, 185–211.',
  'help.fading.guess':
    'Die Frage vor den Wertungen steht aus demselben Grund da: Den eigenen Fehler zu schätzen, bevor man ihn hört, hilft nachweislich.',
};
