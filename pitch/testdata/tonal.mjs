// Writes tonal.json: what the general-purpose library tonal answers about
// every scale type that this package names. The Go tests read the answers as
// a second opinion; nothing else does.
//
//   npm install --no-save @tonaljs/scale@4.12.4 @tonaljs/pcset@4.9.1
//   node tonal.mjs > tonal.json
import * as Scale from '@tonaljs/scale'
import * as Pcset from '@tonaljs/pcset'

// Our name, tonal's name for the same scale ('' where it has none), and the
// scale on C.
const types = [
  ["major triad", "", "C E G"],
  ["minor triad", "", "C Eb G"],
  ["diminished triad", "", "C Eb Gb"],
  ["augmented triad", "", "C E G#"],
  ["suspended fourth triad", "", "C F G"],
  ["suspended second triad", "", "C D G"],
  ["major seventh arpeggio", "", "C E G B"],
  ["dominant seventh arpeggio", "", "C E G Bb"],
  ["minor seventh arpeggio", "", "C Eb G Bb"],
  ["half-diminished arpeggio", "", "C Eb Gb Bb"],
  ["diminished seventh arpeggio", "", "C Eb Gb Bbb"],
  ["minor major seventh arpeggio", "", "C Eb G B"],
  ["augmented major seventh arpeggio", "", "C E G# B"],
  ["augmented seventh arpeggio", "", "C E G# Bb"],
  ["dominant seventh flat five arpeggio", "", "C E Gb Bb"],
  ["suspended seventh arpeggio", "", "C F G Bb"],
  ["sixth arpeggio", "", "C E G A"],
  ["minor sixth arpeggio", "", "C Eb G A"],
  ["major pentatonic", "major pentatonic", "C D E G A"],
  ["suspended pentatonic", "egyptian", "C D F G Bb"],
  ["man gong", "malkos raga", "C Eb F Ab Bb"],
  ["ritusen", "ritusen", "C D F G A"],
  ["minor pentatonic", "minor pentatonic", "C Eb F G Bb"],
  ["dominant pentatonic", "", "C D E G Bb"],
  ["mixolydian pentatonic", "mixolydian pentatonic", "C E F G Bb"],
  ["ionian pentatonic", "ionian pentatonic", "C E F G B"],
  ["lydian pentatonic", "lydian pentatonic", "C E F# G B"],
  ["lydian dominant pentatonic", "lydian dominant pentatonic", "C E F# G Bb"],
  ["major flat six pentatonic", "flat six pentatonic", "C D E G Ab"],
  ["major flat two pentatonic", "scriabin", "C Db E G A"],
  ["minor six pentatonic", "minor six pentatonic", "C Eb F G A"],
  ["minor flat six pentatonic", "vietnamese 1", "C Eb F G Ab"],
  ["minor major seven pentatonic", "minor #7M pentatonic", "C Eb F G B"],
  ["minor pentatonic flat five", "locrian pentatonic", "C Eb F Gb Bb"],
  ["altered pentatonic", "super locrian pentatonic", "C Eb Fb Gb Bb"],
  ["whole tone pentatonic", "whole tone pentatonic", "C E Gb Ab Bb"],
  ["kumoi", "flat three pentatonic", "C D Eb G A"],
  ["hirajoshi", "hirajoshi", "C D Eb G Ab"],
  ["in-sen", "in-sen", "C Db F G Bb"],
  ["in", "kumoijoshi", "C Db F G Ab"],
  ["iwato", "iwato", "C Db F Gb Bb"],
  ["pelog", "pelog", "C Db Eb G Ab"],
  ["minor blues", "minor blues", "C Eb F Gb G Bb"],
  ["major blues", "major blues", "C D Eb E G A"],
  ["minor hexatonic", "", "C D Eb F G Bb"],
  ["major hexatonic", "", "C D E F G A"],
  ["whole tone", "whole tone", "C D E F# G# Bb"],
  ["augmented", "augmented", "C D# E G G# B"],
  ["inverted augmented", "six tone symmetric", "C Db E F G# A"],
  ["prometheus", "prometheus", "C D E F# A Bb"],
  ["major triad pair a semitone apart", "", "C Db E F G Ab"],
  ["major triad pair a whole tone apart", "", "C D E F# G A"],
  ["major triad pair a tritone apart", "", "C Db E F# G Bb"],
  ["minor triad pair a semitone apart", "", "C Db Eb Fb G Ab"],
  ["minor triad pair a whole tone apart", "", "C D Eb F G A"],
  ["minor triad pair a tritone apart", "", "C Db Eb F# G A"],
  ["major", "major", "C D E F G A B"],
  ["dorian", "dorian", "C D Eb F G A Bb"],
  ["phrygian", "phrygian", "C Db Eb F G Ab Bb"],
  ["lydian", "lydian", "C D E F# G A B"],
  ["mixolydian", "mixolydian", "C D E F G A Bb"],
  ["natural minor", "minor", "C D Eb F G Ab Bb"],
  ["locrian", "locrian", "C Db Eb F Gb Ab Bb"],
  ["melodic minor", "melodic minor", "C D Eb F G A B"],
  ["dorian b2", "dorian b2", "C Db Eb F G A Bb"],
  ["lydian augmented", "lydian augmented", "C D E F# G# A B"],
  ["lydian dominant", "lydian dominant", "C D E F# G A Bb"],
  ["mixolydian b6", "mixolydian b6", "C D E F G Ab Bb"],
  ["locrian #2", "locrian #2", "C D Eb F Gb Ab Bb"],
  ["altered", "altered", "C Db Eb Fb Gb Ab Bb"],
  ["harmonic minor", "harmonic minor", "C D Eb F G Ab B"],
  ["locrian #6", "locrian 6", "C Db Eb F Gb A Bb"],
  ["ionian #5", "major augmented", "C D E F G# A B"],
  ["dorian #4", "dorian #4", "C D Eb F# G A Bb"],
  ["phrygian dominant", "phrygian dominant", "C Db E F G Ab Bb"],
  ["lydian #2", "lydian #9", "C D# E F# G A B"],
  ["ultralocrian", "ultralocrian", "C Db Eb Fb Gb Ab Bbb"],
  ["harmonic major", "harmonic major", "C D E F G Ab B"],
  ["dorian b5", "", "C D Eb F Gb A Bb"],
  ["phrygian b4", "", "C Db Eb Fb G Ab Bb"],
  ["lydian b3", "lydian diminished", "C D Eb F# G A B"],
  ["mixolydian b2", "", "C Db E F G A Bb"],
  ["lydian augmented #2", "", "C D# E F# G# A B"],
  ["locrian bb7", "", "C Db Eb F Gb Ab Bbb"],
  ["double harmonic", "double harmonic major", "C Db E F G Ab B"],
  ["hungarian minor", "hungarian minor", "C D Eb F# G Ab B"],
  ["hungarian major", "hungarian major", "C D# E F# G A Bb"],
  ["neapolitan minor", "balinese", "C Db Eb F G Ab B"],
  ["neapolitan major", "neopolitan major", "C Db Eb F G A B"],
  ["persian", "persian", "C Db E F Gb Ab B"],
  ["octatonic half-whole", "half-whole diminished", "C Db Eb E F# G A Bb"],
  ["octatonic whole-half", "diminished", "C D Eb F Gb Ab A B"],
  ["bebop dominant", "bebop", "C D E F G A Bb B"],
  ["bebop major", "bebop major", "C D E F G G# A B"],
  ["bebop dorian", "bebop minor", "C D Eb E F G A Bb"],
  ["bebop melodic minor", "minor six diminished", "C D Eb F G Ab A B"],
  ["bebop harmonic minor", "minor bebop", "C D Eb F G Ab Bb B"],
  ["bebop locrian", "bebop locrian", "C Db Eb F Gb G Ab Bb"],
  ["composite blues", "composite blues", "C D Eb E F Gb G A Bb"],
  ["Messiaen mode 3", "messiaen's mode #3", "C D Eb E F# G Ab Bb B"],
  ["Messiaen mode 4", "messiaen's mode #4", "C Db D F F# G Ab B"],
  ["Messiaen mode 5", "messiaen's mode #5", "C Db F F# G B"],
  ["Messiaen mode 6", "messiaen's mode #6", "C D E F F# G# A# B"],
  ["Messiaen mode 7", "messiaen's mode #7", "C Db D Eb F F# G Ab A B"],
  ["chromatic", "chromatic", "C Db D Eb E F F# G Ab A Bb B"],
]

const roots = ['C', 'G', 'F#', 'Gb', 'Eb', 'B']

const answers = types.map(([name, tonal, notes]) => {
  const set = Pcset.get(notes.split(' '))
  const answer = { name, notes, chroma: set.chroma, normalized: set.normalized }
  if (tonal === '') return answer
  const scale = Scale.get('C ' + tonal)
  if (scale.empty) throw new Error('tonal has no scale ' + tonal)
  const spelled = Object.fromEntries(roots.map((root) => [root, Scale.get(root + ' ' + tonal).notes.join(' ')]))
  return { ...answer, tonal, scaleChroma: scale.chroma, intervals: scale.intervals.join(' '), spelled }
})
console.log(JSON.stringify({ versions: { '@tonaljs/scale': '4.12.4', '@tonaljs/pcset': '4.9.1' }, answers }, null, 1))
