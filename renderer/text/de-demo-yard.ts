import type { enDemoYard } from './en-demo-yard.ts';

/** Words of the demo yard, in German. */
export const deDemoYard: Record<keyof typeof enDemoYard, string> = {
  'demo.title': 'Die Demo-Werkstatt',
  'demo.mark': 'Demo-Werkstatt.',
  'demo.mark.about': 'Erfundene Leute; nichts hier berührt deine eigene Werkstatt.',
  'demo.leave': 'Demo-Werkstatt verlassen',
  'demo.first': 'In dieser Werkstatt ist noch niemand',
  'demo.own': 'Eigene Werkstatt anfangen',
  'demo.own.about':
    'Leg den ersten Ausbilder an, der dann Leute hinzufügt oder eine Liste einliest. Ohne ihn ist dies ein Schneidplatz für alle: Wähl unten eine Übung und schneide.',
  'demo.look': 'Sieh dich in der Demo-Werkstatt um',
  'demo.facts':
    'Die Werft Tidewater Row über {weeks} Wochen eines erfundenen Herbstes: {apprentices} Azubis in {groups} Gruppen, {instructors} Ausbilder, {assessors} Prüfer, {runs} Läufe von künstlichen Händen. Ihre Aufzeichnungen liegen getrennt von deinen.',
  'demo.open': 'Demo-Werkstatt öffnen',
  'demo.opening': 'Wird ausgepackt…',
  'demo.remove': 'Von diesem Rechner entfernen',
  'demo.remove.who': 'Ein Ausbilder kann sie von diesem Rechner entfernen.',
  'demo.settings': 'Öffnen, verlassen, entfernen',
  'demo.close': 'Schließen',
  'demo.state.absent': 'Sie wird beim ersten Öffnen ausgepackt. Wer hier angemeldet ist, wird abgemeldet.',
  'demo.state.there':
    'Sie ist auf diesem Rechner, wie sie verlassen wurde. Wer hier angemeldet ist, wird beim Öffnen abgemeldet.',
  'demo.state.open': 'Sie ist gerade offen. Verlassen oder Entfernen führt zurück in deine eigene Werkstatt.',
  'demo.entries': 'Komm als einer vom Personal herein',
  'demo.enter': 'Anmelden als {person}',
  'demo.passphrase': 'Passphrase',
  'demo.worth-a-look':
    'Einen Blick wert: Azubi 04 lernt schnell, 07 kommt mit der Geschwindigkeit nicht weiter, 11 hält den Brenner zu hoch, 15 übt kaum, 24 kam später dazu.',
};
