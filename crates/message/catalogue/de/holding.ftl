holding-left = noch { $time }
holding-over = seit { $time } vorbei
