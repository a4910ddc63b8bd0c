// Command railbook grades, values, checks and places a fair's carcasses from the fair office's own workbook.
package main

func main() {}
