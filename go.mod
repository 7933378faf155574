module heddle

go 1.26.8
