module rationwright

go 1.26
