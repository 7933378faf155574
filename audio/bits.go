package audio

import "math/bits"

// A bitWriter writes numbers of any width, the highest bit first.
type bitWriter struct {
	bytes []byte
	held  uint64
	n     uint // bits held
}

func (b *bitWriter) reset() { b.bytes, b.held, b.n = b.bytes[:0], 0, 0 }

// put writes the low width bits of a number, at most 32.
func (b *bitWriter) put(v uint64, width uint) {
	b.held = b.held<<width | v&(1<<width-1)
	b.n += width
	for b.n >= 8 {
		b.n -= 8
		b.bytes = append(b.bytes, byte(b.held>>b.n))
	}
}

// putSigned writes a number in two's complement.
func (b *bitWriter) putSigned(v int32, width uint) { b.put(uint64(uint32(v))|uint64(v>>31)<<32, width) }

// putUnary writes a number of zeros and a one.
func (b *bitWriter) putUnary(zeros uint32) {
	for ; zeros >= 32; zeros -= 32 {
		b.put(0, 32)
	}
	b.put(1, uint(zeros)+1)
}

// align fills up the byte under way with zeros.
func (b *bitWriter) align() {
	if b.n > 0 {
		b.put(0, 8-b.n)
	}
}

// putUTF8 writes a number as UTF-8 would, up to 36 bits (RFC 9639, §9.1.5).
func (b *bitWriter) putUTF8(v uint64) {
	if v < 0x80 {
		b.put(v, 8)
		return
	}
	more := uint(1)
	for v>>(6*more) >= 1<<(6-more) {
		more++
	}
	b.put((0xff<<(7-more))&0xff|v>>(6*more), 8)
	for ; more > 0; more-- {
		b.put(0x80|v>>(6*(more-1))&0x3f, 8)
	}
}

// The partitions of a block's residual.
const (
	partitionOrder = 5  // 32 partitions of 128 samples
	mostRice4      = 14 // greatest parameter of the method with 4 bits for it
	mostRice5      = 30
)

// putResidual writes what a predictor leaves over in partitioned Rice codes
// (RFC 9639, §9.2.7): each partition's own parameter, then of each number the
// part above the parameter's bits in unary and those bits as they are.
func (b *bitWriter) putResidual(r []int32, n, order int) {
	parts := uint(partitionOrder)
	for n%(1<<parts) != 0 || n>>parts <= order {
		parts--
	}
	size := n >> parts
	params := make([]uint, 0, 1<<partitionOrder)
	high := uint(0)
	for i := range 1 << parts {
		k := riceParameter(r[max(0, i*size-order) : (i+1)*size-order])
		params = append(params, k)
		high = max(high, k)
	}
	method, width := uint64(0), uint(4)
	if high > mostRice4 {
		method, width = 1, 5
	}
	b.put(method<<4|uint64(parts), 6)
	for i, k := range params {
		b.put(uint64(k), width)
		for _, v := range r[max(0, i*size-order) : (i+1)*size-order] {
			u := uint32(v<<1) ^ uint32(v>>31)
			b.putUnary(u >> k)
			b.put(uint64(u), k)
		}
	}
}

// riceParameter returns the parameter whose codes are close to the shortest:
// that of the mean.
func riceParameter(r []int32) uint {
	sum := uint64(0)
	for _, v := range r {
		sum += uint64(uint32(v<<1) ^ uint32(v>>31))
	}
	mean := sum / uint64(max(len(r), 1))
	k := uint(bits.Len64(mean))
	if k > 0 {
		k--
	}
	return min(k, mostRice5)
}

// crc8 is a frame header's checksum: polynomial x⁸+x²+x+1 (RFC 9639, §9.1.8).
func crc8(s []byte) byte {
	crc := byte(0)
	for _, x := range s {
		crc ^= x
		for range 8 {
			crc = crc<<1 ^ crc>>7*0x07
		}
	}
	return crc
}

// crc16 is a frame's checksum: polynomial x¹⁶+x¹⁵+x²+1 (RFC 9639, §9.3).
func crc16(s []byte) uint16 {
	crc := uint16(0)
	for _, x := range s {
		crc = crc<<8 ^ crc16Table[byte(crc>>8)^x]
	}
	return crc
}

// crc16Table holds the checksum of each byte.
var crc16Table = func() (table [256]uint16) {
	for i := range table {
		crc := uint16(i) << 8
		for range 8 {
			crc = crc<<1 ^ crc>>15*0x8005
		}
		table[i] = crc
	}
	return table
}()
