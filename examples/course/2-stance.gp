# Plots solutions/2-stance.csv: gnuplot 2-stance.gp
set datafile separator ','
set terminal svg size 720,480
set output '2-stance.svg'
set xlabel 'stance [cm]'
set ylabel 'moment [N m]'
set y2label 'bar travel [cm]'
set y2tics
set ytics nomirror
set key bottom left
data = 'solutions/2-stance.csv'
plot data using ($1*100):(column('hip_both_n_m')) with linespoints title 'hips, side view, both', \
     data using ($1*100):(column('hip_frontal_per_side_n_m')) with linespoints title 'hip from the front, one side', \
     data using ($1*100):(column('knee_extension_per_side_n_m')) with linespoints title 'knee about its axis, one side', \
     data using ($1*100):(column('travel_m')*100) axes x1y2 with linespoints title 'bar travel [cm]'
