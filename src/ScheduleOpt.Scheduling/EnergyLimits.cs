using NodaTime;

namespace ScheduleOpt.Scheduling;

/// <summary>The bounds of the stored energy at every boundary, all known before the solve, so that it stays linear. [kWh]</summary>
internal sealed record EnergyLimits(double[] Lower, double[] Upper)
{
    private static readonly Duration ShortMargin = Duration.FromMinutes(30);

    // Below this temperature the charging time is less certain, so that the margin grows with it.
    private const double ColdBelowC = -5;
    private const double ColdShare = 0.2;

    public static EnergyLimits Of(
        LimitFrame frame,
        Instant[] boundaries,
        IntervalData intervals,
        DepartureTarget[] departures)
    {
        var (hours, place, net, temperature, drive) = (intervals.Hours, intervals.Place, intervals.NetKw, intervals.TemperatureC, intervals.DriveKwh);
        var wanted = Wanted(frame, hours, place, net, drive, departures);
        var upper = new double[boundaries.Length];
        Array.Fill(upper, frame.Usable);

        var stayStart = 0;
        var carry = frame.Initial;
        for (var k = 0; k <= departures.Length; k++)
        {
            var stayEnd = k < departures.Length ? departures[k].Boundary : boundaries.Length - 1;
            var margin = ShortMargin;
            if (k < departures.Length && stayEnd > stayStart && temperature[stayEnd - 1] < ColdBelowC)
            {
                margin = Duration.Max(margin, Duration.FromHours(ColdShare * HoursAboveOrdinary(frame, wanted, hours, stayStart, stayEnd)));
            }

            var ahead = stayStart;
            for (var b = stayStart; b <= stayEnd; b++)
            {
                var at = Instant.Min(boundaries[b] + margin, boundaries[stayEnd]);
                while (ahead < stayEnd && boundaries[ahead + 1] < at)
                {
                    ahead++;
                }

                var needed = ahead < stayEnd
                    ? Math.Max(frame.Minimum, wanted[ahead + 1] - (net[ahead] * (boundaries[ahead + 1] - at).TotalHours))
                    : wanted[stayEnd];
                if (k < departures.Length && boundaries[departures[k].DueBoundary] <= at)
                {
                    // Once due, it stays due.
                    needed = Math.Max(needed, departures[k].RequiredKwh);
                }

                upper[b] = Math.Max(Math.Max(frame.Ordinary, carry), Math.Min(frame.Extended, needed));
            }

            if (k < departures.Length)
            {
                carry = Math.Max(0, upper[stayEnd] - departures[k].DriveKwh);
                stayStart = departures[k].ReturnBoundary;
            }
        }

        var lower = LowerOf(frame, hours, place, net);
        foreach (var departure in departures)
        {
            // Not at the departure itself: there the lower bound is the trip's.
            for (var b = departure.DueBoundary; b < departure.Boundary; b++)
            {
                lower[b] = Math.Max(lower[b], departure.RequiredKwh);
            }
        }

        return new EnergyLimits(lower, upper);
    }

    /// <summary>The most energy that any path can have at each boundary: it charges as early and as much as the limits let it. [kWh]</summary>
    public double[] Most(IntervalData intervals, double initialKwh)
    {
        var most = new double[Upper.Length];
        most[0] = initialKwh;
        for (var i = 0; i < intervals.Count; i++)
        {
            var after = most[i] + (intervals.NetKw[i] * intervals.Hours[i]) - intervals.DriveKwh[i];
            most[i + 1] = Math.Min(Upper[i + 1], intervals.Place[i] == Place.Road ? Math.Max(Lower[i + 1], after) : after);
        }

        return most;
    }

    /// <summary>W: the least energy at each boundary from which every later wish can be met; at a departure the side before it.</summary>
    private static double[] Wanted(
        LimitFrame frame, double[] hours, Place[] place, double[] net, double[] drive, DepartureTarget[] departures)
    {
        var wanted = new double[hours.Length + 1];
        wanted[^1] = Math.Max(frame.Minimum, frame.Final ?? 0);
        var k = departures.Length - 1;
        var due = k;
        for (var b = hours.Length; b >= 0; b--)
        {
            if (b < hours.Length)
            {
                wanted[b] = place[b] == Place.Road
                    ? wanted[b + 1] + drive[b]
                    : Math.Max(frame.Minimum, wanted[b + 1] - (net[b] * hours[b]));
            }

            while (k >= 0 && departures[k].Boundary == b)
            {
                wanted[b] = Math.Max(wanted[b], departures[k].RequiredKwh);
                k--;
            }

            while (due >= 0 && departures[due].DueBoundary == b)
            {
                wanted[b] = Math.Max(wanted[b], departures[due].RequiredKwh);
                due--;
            }
        }

        return wanted;
    }

    private static double HoursAboveOrdinary(LimitFrame frame, double[] wanted, double[] hours, int from, int until)
    {
        var sum = 0.0;
        for (var i = from; i < until; i++)
        {
            if (wanted[i + 1] > frame.Ordinary)
            {
                sum += hours[i];
            }
        }

        return sum;
    }

    /// <summary>L: what the car has plus what can be delivered from the start, up to the minimum; never raised while away.</summary>
    private static double[] LowerOf(LimitFrame frame, double[] hours, Place[] place, double[] net)
    {
        var lower = new double[hours.Length + 1];
        lower[0] = Math.Min(frame.Minimum, frame.Initial);
        for (var i = 0; i < hours.Length; i++)
        {
            lower[i + 1] = place[i] == Place.Home ? Math.Min(frame.Minimum, lower[i] + (net[i] * hours[i])) : lower[i];
        }

        return lower;
    }
}
