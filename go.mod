module heddle

go 1.26.8

require pgregory.net/rapid v1.3.0
