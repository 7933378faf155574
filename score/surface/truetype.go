package surface

import (
	"encoding/binary"
	"maps"
	"slices"

	"golang.org/x/image/font/sfnt"
)

// subset returns the TrueType file with the outlines of the given glyphs and
// of what they are composed of; every glyph keeps its number, the others are
// empty. Only the named tables are kept. The file must be one of the
// program's own: it is read without doubt.
func subset(file []byte, used []sfnt.GlyphIndex, keep ...string) []byte {
	source := tablesOf(file)
	glyf, loca := cutGlyphs(source, used)
	head := slices.Clone(source["head"])
	const checkSum, longOffsets = 8, 50
	binary.BigEndian.PutUint32(head[checkSum:], 0)
	binary.BigEndian.PutUint16(head[longOffsets:], 1)
	out := map[string][]byte{"glyf": glyf, "loca": loca, "head": head}
	for _, tag := range keep {
		if table, found := source[tag]; found {
			out[tag] = table
		}
	}
	return assemble(out)
}

// tablesOf returns a font file's tables by their tags (OpenType 1.9, "Table
// directory").
func tablesOf(file []byte) map[string][]byte {
	tables := map[string][]byte{}
	for i := range int(binary.BigEndian.Uint16(file[4:])) {
		record := file[12+16*i:]
		offset, length := binary.BigEndian.Uint32(record[8:]), binary.BigEndian.Uint32(record[12:])
		tables[string(record[:4])] = file[offset : offset+length]
	}
	return tables
}

// cutGlyphs returns the glyf table of the used glyphs and its loca table with
// long offsets.
func cutGlyphs(source map[string][]byte, used []sfnt.GlyphIndex) (glyf, loca []byte) {
	count := int(binary.BigEndian.Uint16(source["maxp"][4:]))
	offset := func(glyph int) uint32 {
		if binary.BigEndian.Uint16(source["head"][50:]) == 0 {
			return 2 * uint32(binary.BigEndian.Uint16(source["loca"][2*glyph:]))
		}
		return binary.BigEndian.Uint32(source["loca"][4*glyph:])
	}
	outline := func(glyph int) []byte { return source["glyf"][offset(glyph):offset(glyph+1)] }
	kept := make([]bool, count)
	var keep func(glyph int)
	keep = func(glyph int) {
		if glyph >= count || kept[glyph] {
			return
		}
		kept[glyph] = true
		for _, part := range componentsOf(outline(glyph)) {
			keep(part)
		}
	}
	keep(0) // the box for what is missing
	for _, glyph := range used {
		keep(int(glyph))
	}
	for glyph := range count {
		loca = binary.BigEndian.AppendUint32(loca, uint32(len(glyf)))
		if kept[glyph] {
			glyf = append(glyf, outline(glyph)...)
			for len(glyf)%4 != 0 {
				glyf = append(glyf, 0)
			}
		}
	}
	return glyf, binary.BigEndian.AppendUint32(loca, uint32(len(glyf)))
}

// componentsOf returns the glyphs that a composite glyph is made of
// (OpenType 1.9, "glyf", composite glyph description).
func componentsOf(outline []byte) (parts []int) {
	if len(outline) < 10 || int16(binary.BigEndian.Uint16(outline)) >= 0 {
		return nil
	}
	const wordArguments, scale, more, twoScales, matrix = 1, 8, 32, 64, 128
	for at := 10; at+4 <= len(outline); {
		flags := binary.BigEndian.Uint16(outline[at:])
		parts = append(parts, int(binary.BigEndian.Uint16(outline[at+2:])))
		at += 6
		if flags&wordArguments != 0 {
			at += 2
		}
		switch {
		case flags&scale != 0:
			at += 2
		case flags&twoScales != 0:
			at += 4
		case flags&matrix != 0:
			at += 8
		}
		if flags&more == 0 {
			break
		}
	}
	return parts
}

// assemble writes tables to a font file, in the order of their tags.
func assemble(tables map[string][]byte) []byte {
	tags := slices.Sorted(maps.Keys(tables))
	n := len(tags)
	search, selector := 1, 0
	for search*2 <= n {
		search, selector = search*2, selector+1
	}
	out := []byte{0, 1, 0, 0}
	for _, v := range []int{n, 16 * search, selector, 16*n - 16*search} {
		out = binary.BigEndian.AppendUint16(out, uint16(v))
	}
	offset := 12 + 16*n
	for _, tag := range tags {
		out = append(out, tag...)
		out = binary.BigEndian.AppendUint32(out, sum(tables[tag]))
		out = binary.BigEndian.AppendUint32(out, uint32(offset))
		out = binary.BigEndian.AppendUint32(out, uint32(len(tables[tag])))
		offset += (len(tables[tag]) + 3) &^ 3
	}
	for _, tag := range tags {
		out = append(out, tables[tag]...)
		for len(out)%4 != 0 {
			out = append(out, 0)
		}
	}
	return out
}

// sum returns a table's checksum: the sum of its big-endian words.
func sum(table []byte) (total uint32) {
	for len(table) >= 4 {
		total += binary.BigEndian.Uint32(table)
		table = table[4:]
	}
	var last [4]byte
	copy(last[:], table)
	return total + binary.BigEndian.Uint32(last[:])
}
