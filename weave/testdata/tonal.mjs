// Writes tonal.json: the scales in which the general-purpose library tonal finds
// fragments of scales, as a second opinion for the Go tests; nothing else reads it.
//
//   npm install --no-save @tonaljs/scale@4.13.6
//   node tonal.mjs > tonal.json
import { createRequire } from 'node:module'
import { detect, get } from '@tonaljs/scale'

const version = createRequire(import.meta.url)('@tonaljs/scale/package.json').version

const scales = [
  'G minor pentatonic', 'C major pentatonic', 'A minor blues', 'C major', 'D dorian', 'E phrygian',
  'F lydian', 'G mixolydian', 'A minor', 'Bb melodic minor', 'E harmonic minor', 'C whole tone', 'F major', 'Eb major',
]

const fragments = []
for (const scale of scales) {
  const own = get(scale).notes
  for (const length of [6, 8, 10]) {
    for (const start of [0, 2, 4]) {
      const notes = Array.from({ length }, (_, i) => own[(start + i) % own.length])
      const names = [...new Set(notes)]
      const found = new Set()
      for (const tonic of names)
        for (const name of detect(names, { tonic, match: 'fit' })) {
          const { intervals, notes } = get(name)
          if (intervals.length) found.add(notes.join(' '))
        }
      fragments.push({ scale, notes: notes.join(' '), found: [...found] })
    }
  }
}
console.log(JSON.stringify({ version, fragments }, null, 1))
