/** Words of measuring on the cut part. */
export const enReviewMeasure = {
  'measure.tool': 'Look and measure',
  'measure.tool.map': 'Map',
  'measure.tool.place': 'Place',
  'measure.tool.distance': 'Distance',

  'measure.spot': 'Place along the cut',
  'measure.spot.says': '{way} along the line',
  'measure.map.how':
    'A place that is picked on the map or in the table shows its moment; the cross follows the torch. Keys on the cross: arrows, Page Up and Page Down.',
  'measure.map.moment': 'The torch was here at {time}.',
  'measure.map.no-moment': 'The arc was never here.',
  'measure.map.away': 'The torch is not on the line now.',

  'measure.place.how':
    'Press on the cut or drag the cross. Keys on the cross: arrows go {step}, Page Up and Page Down {far}, Home and End to the ends.',
  'measure.place.at': 'Way along the line',
  'measure.place.width': 'Kerf, top / bottom',
  'measure.place.off': 'Kerf off the line',
  'measure.place.left': 'Left face',
  'measure.place.right': 'Right face',
  'measure.place.left.part': 'Left face, the part',
  'measure.place.right.part': 'Right face, the part',
  'measure.place.depth': 'Open depth',
  'measure.place.through': 'through',
  'measure.place.none': 'no face here',
  'measure.off.left': '{value} to the left',
  'measure.off.right': '{value} to the right',
  'measure.off.none': 'on it',
  'measure.lean.square': '{value}, square',
  'measure.lean.top': '{value}, wider above',
  'measure.lean.bottom': '{value}, wider below',
  'measure.lean.meant': '{value}, meant {meant}',
  'measure.place.moment': 'Show the moment, {time}',
  'measure.finished': 'Read from the part as it was at the end of the run, whatever moment is shown.',
  'measure.resolution':
    'Cells of {cell}, means over {stretch} of line. One cell across this thickness is {lean} of lean; smaller leans are read from cells that are part gone.',

  'measure.distance.how':
    'Press on the plate for the first point and again for the second, or drag them. Keys on a point: arrows go {step}, with Shift {far}; Enter takes it to the nearest edge of the cut.',
  'measure.distance.snap': 'Points keep to the edges of the cut',
  'measure.distance.first': 'Point 1',
  'measure.distance.second': 'Point 2',
  'measure.distance.point': '{name}: {x}, {y}',
  'measure.distance.whole': 'Distance',
  'measure.distance.x': 'Along the plate',
  'measure.distance.y': 'Across the plate',
  'measure.distance.resolution': 'Points are places of the top surface; its cells are {cell}.',
} as const;
