package xlsx

import (
	"bytes"
	"compress/flate"
	"hash/crc32"
	"io"
	"testing"

	"pgregory.net/rapid"
)

// A part packed in pieces, and two parts put together, unpack to the same bytes with the same checksum as one that was
// packed whole (RFC 1951; the checksum of ISO 3309).
func TestPiecesArePackedAsOnePart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		plain := rapid.SliceOfN(rapid.Byte(), 0, 200).Draw(t, "bytes")
		repeated := bytes.Repeat(plain, rapid.IntRange(0, 40_000).Draw(t, "times"))
		cut := rapid.IntRange(0, len(repeated)).Draw(t, "cut")
		first, err := packWhole(repeated[:cut], nil)
		if err != nil {
			t.Fatal(err)
		}
		second, err := packWhole(repeated[cut:], nil)
		if err != nil {
			t.Fatal(err)
		}
		both := first.followedBy(second)
		if want := crc32.ChecksumIEEE(repeated); both.sum != want || both.size != len(repeated) {
			t.Fatalf("checksum %08x of %d bytes, want %08x of %d", both.sum, both.size, want, len(repeated))
		}
		joined, err := Pieces(both.pieces).Bytes()
		if err != nil {
			t.Fatal(err)
		}
		unpacked, err := io.ReadAll(flate.NewReader(bytes.NewReader(joined)))
		if err != nil || !bytes.Equal(unpacked, repeated) {
			t.Fatalf("%d bytes came back as %d (%v)", len(repeated), len(unpacked), err)
		}
	})
}
