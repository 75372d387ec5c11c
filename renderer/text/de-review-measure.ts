import type { enReviewMeasure } from './en-review-measure.ts';

/** Words of measuring on the cut part, in German. */
export const deReviewMeasure: Record<keyof typeof enReviewMeasure, string> = {
  'measure.tool': 'Ansehen und messen',
  'measure.tool.map': 'Karte',
  'measure.tool.place': 'Stelle',
  'measure.tool.distance': 'Abstand',

  'measure.spot': 'Stelle am Schnitt',
  'measure.spot.says': '{way} die Linie entlang',
  'measure.map.how':
    'Eine Stelle, die auf der Karte oder in der Tabelle gewählt ist, zeigt ihren Moment; das Kreuz folgt dem Brenner. Tasten am Kreuz: Pfeile, Bild auf und Bild ab.',
  'measure.map.moment': 'Der Brenner war hier bei {time}.',
  'measure.map.no-moment': 'Der Lichtbogen war nie hier.',
  'measure.map.away': 'Der Brenner ist jetzt nicht auf der Linie.',

  'measure.place.how':
    'Drück auf den Schnitt oder zieh das Kreuz. Tasten am Kreuz: Pfeile gehen {step}, Bild auf und Bild ab {far}, Pos1 und Ende an die Enden.',
  'measure.place.at': 'Weg auf der Linie',
  'measure.place.width': 'Schnittfuge, oben / unten',
  'measure.place.off': 'Schnittfuge neben der Linie',
  'measure.place.left': 'Linke Schnittfläche',
  'measure.place.right': 'Rechte Schnittfläche',
  'measure.place.left.part': 'Linke Schnittfläche, das Teil',
  'measure.place.right.part': 'Rechte Schnittfläche, das Teil',
  'measure.place.depth': 'Offene Tiefe',
  'measure.place.through': 'durch',
  'measure.place.none': 'hier keine Schnittfläche',
  'measure.off.left': '{value} nach links',
  'measure.off.right': '{value} nach rechts',
  'measure.off.none': 'auf ihr',
  'measure.lean.square': '{value}, rechtwinklig',
  'measure.lean.top': '{value}, oben weiter',
  'measure.lean.bottom': '{value}, unten weiter',
  'measure.lean.meant': '{value}, gemeint {meant}',
  'measure.place.moment': 'Den Moment zeigen, {time}',
  'measure.finished': 'Am Teil gelesen, wie es am Ende des Laufs war, welcher Moment auch gezeigt wird.',
  'measure.resolution':
    'Zellen von {cell}, gemittelt über {stretch} Linie. Eine Zelle über diese Dicke ist {lean} Neigung; kleinere Neigungen werden aus Zellen gelesen, die zum Teil weg sind.',

  'measure.distance.how':
    'Drück für den ersten Punkt auf das Blech und noch einmal für den zweiten, oder zieh sie. Tasten an einem Punkt: Pfeile gehen {step}, mit Umschalt {far}; Eingabe führt ihn zum nächsten Rand des Schnitts.',
  'measure.distance.snap': 'Punkte halten sich an die Ränder des Schnitts',
  'measure.distance.first': 'Punkt 1',
  'measure.distance.second': 'Punkt 2',
  'measure.distance.point': '{name}: {x}, {y}',
  'measure.distance.whole': 'Abstand',
  'measure.distance.x': 'Längs am Blech',
  'measure.distance.y': 'Quer am Blech',
  'measure.distance.resolution': 'Punkte sind Stellen der Oberseite; deren Zellen sind {cell}.',
};
