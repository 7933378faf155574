// Heddle works out lines that leave the home key and come back.
package main

func main() {}
