// Package portable has the elementary functions of reference ET, of the water balance and of drawn weather, with the same digits on
// every machine.
//
// The standard library promises no digits: its Exp and Log are assembly on some processors, and what is Go is compiled with fused
// multiply-add on others. Results then differ in the last place, from where a day may tip to the other side of a threshold. Here
// every product is rounded by an explicit conversion before it is added, which the language defines. Only operations that
// IEEE 754 rounds correctly are used: + - * /, the square root, and exact ones such as math.Floor and math.Frexp.
//
// Values are in tables; between them are series of few terms. Where one float64 is too coarse on the way, a value is the sum of
// two (see pair.go). So errors are below 0.6 units in the last place (ulp), of angles below 0.9, as
// the tests measure against values with 300 bits.
//
// Shares and quantiles of distributions, normal draws and moments are here for the same reason: libraries add in other orders, or
// call the functions above.
//
// Sources: the method of tables is that of Tang (1989), Table-driven implementation of the exponential function in IEEE
// floating-point arithmetic, ACM Transactions on Mathematical Software 15(2), 144-157, and Tang (1990), the same for the logarithm,
// 16(4), 378-400; the reduction of angles is that of Cody and Waite (1980), Software manual for the elementary functions; sums of
// two numbers are those of Dekker (1971), A floating-point technique for extending the available precision, Numerische Mathematik
// 18, 224-242, and Knuth. All from memory; the tables and constants are computed by the tests, and no code was copied.
package portable
