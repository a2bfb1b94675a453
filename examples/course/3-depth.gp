# Plots solutions/3-depth.csv: gnuplot 3-depth.gp
set datafile separator ','
set terminal svg size 720,480
set output '3-depth.svg'
set xlabel 'depth of the hip crease below the knee [cm]'
set ylabel 'net moment in the hole, both sides [N m]'
set key bottom right
data = 'solutions/3-depth.csv'
plot data using ($1*100):(column('hip_both_n_m')) with linespoints title 'hips', \
     data using ($1*100):(column('knee_both_n_m')) with linespoints title 'knees', \
     data using ($1*100):(column('back_both_n_m')) with linespoints title 'back'
