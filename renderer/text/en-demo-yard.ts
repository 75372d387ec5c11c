/** Words of the demo yard. */
export const enDemoYard = {
  'demo.title': 'The demo yard',
  'demo.mark': 'Demo yard.',
  'demo.mark.about': 'Invented people; nothing here touches your own yard.',
  'demo.leave': 'Leave the demo yard',
  'demo.first': 'Nobody is in this yard yet',
  'demo.own': 'Begin your own yard',
  'demo.own.about':
    'Make the first instructor, who then adds people or takes in a roster. Without one this is a bench for everybody: choose any drill below and cut.',
  'demo.look': 'Look round the demo yard',
  'demo.facts':
    'The Tidewater Row slipway yard over {weeks} weeks of an invented autumn: {apprentices} apprentices in {groups} groups, {instructors} instructors, {assessors} assessors, {runs} runs cut by synthetic hands. Its records are kept apart from yours.',
  'demo.open': 'Open the demo yard',
  'demo.opening': 'Unpacking…',
  'demo.remove': 'Remove it from this machine',
  'demo.remove.who': 'An instructor can remove it from this machine.',
  'demo.settings': 'Open, leave or remove it',
  'demo.close': 'Close',
  'demo.state.absent': 'It is unpacked when it is first opened. Whoever is signed in here is signed out.',
  'demo.state.there': 'It is on this machine as it was left. Whoever is signed in here is signed out when it opens.',
  'demo.state.open': 'It is open now. To leave it or to remove it leads back to your own yard.',
  'demo.entries': 'Come in as one of the staff',
  'demo.enter': 'Sign in as {person}',
  'demo.passphrase': 'Passphrase',
  'demo.worth-a-look':
    'Worth a look: Apprentice 04 learns fast, 07 is stuck on speed, 11 holds the torch too high, 15 hardly practises, 24 came late.',
} as const;
