#!/bin/sh
# Records every note name of words.txt with Debian's espeak-ng (1.51 when the
# kept recordings were made) and sox, into one small FLAC file each:
# 22.05 kHz, mono, 16 bit, silence cut from both ends, peak at -3 dB. They are
# spoken fast (260 words a minute), since a name should be over before the next
# note.
#
# Columns of words.txt, between tabs: naming, file, the words as
# pitch.Naming.Spoken gives them, and what the synthesiser is told; [[…]] are
# its phonemes, where its own reading of a note name is wrong.
#
# Run it in this folder.
set -eu
tab=$(printf '\t')
rm -rf english german solfege
mkdir english german solfege
while IFS="$tab" read -r naming file _ say; do
	case $naming in
	english) voice=en-us ;;
	german) voice=de ;;
	solfege) voice=fr-fr ;;
	esac
	espeak-ng -v "$voice" -s 260 -p 42 -w raw.wav "$say"
	sox -V1 -D raw.wav -C 8 --comment '' "$naming/$file.flac" highpass 70 \
		silence 1 0.002 0.6% reverse silence 1 0.002 0.6% fade 0.012 reverse gain -n -3 </dev/null
done <words.txt
rm raw.wav
