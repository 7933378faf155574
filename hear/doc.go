package hear
