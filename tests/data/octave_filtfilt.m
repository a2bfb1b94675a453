% SPDX-License-Identifier: MIT
% Makes octave_filtfilt.csv: zero-lag filtering by GNU Octave's filtfilt and butter (package signal).
% Use: octave-cli --norc octave_filtfilt.m > octave_filtfilt.csv
pkg load signal
printf("case,rate_hz,cutoff_hz,kind,i,x,y\n");
setups = [30 6 60; 120 5 40; 59.94 8 10; 240 12 90; 25 3 7];
for k = 1:rows(setups)
    rate = setups(k, 1);
    cutoff = setups(k, 2);
    count = setups(k, 3);
    % The section's own cut-off, so that both passes together fall to 0.707 at cutoff.
    own = atan(tan(pi * cutoff / rate) / (sqrt(2) - 1) ^ 0.25) / pi * 2;
    [b, a] = butter(2, own);
    t = (0:count - 1)' / rate;
    x = 0.4 + 0.3 * t + 0.25 * sin(2 * pi * 0.8 * t + k) + 0.01 * mod(7919 * (1:count)' + k, 97) / 97;
    y = filtfilt(b, a, x);
    for i = 1:3
        printf("%d,%.17g,%.17g,coefficient,%d,%.17g,%.17g\n", k, rate, cutoff, i - 1, b(i), a(i));
    end
    for i = 1:count
        printf("%d,%.17g,%.17g,sample,%d,%.17g,%.17g\n", k, rate, cutoff, i - 1, x(i), y(i));
    end
end
