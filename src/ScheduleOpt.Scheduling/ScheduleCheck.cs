using NodaTime;

namespace ScheduleOpt.Scheduling;

/// <summary>Checks a schedule against the physics and the limits with code of its own; knows nothing of the LP.</summary>
/// <remarks>Runs after every solve, in production too. From the problem it takes boundaries, places, temperatures, prices, drives and limits;
/// power and rate are derived anew from volts, amperes and the vehicle's constants.</remarks>
public static class ScheduleCheck
{
    /// <summary>How far energies may differ. [kWh]</summary>
    public const double EnergyTolerance = 1e-6;

    /// <summary>How far a limit may be passed: a window begins and ends on a whole second. [kWh]</summary>
    public const double LimitTolerance = 0.01;

    private const double MoneyTolerance = 1e-6;
    private const int MostFindings = 20;

    /// <summary>Every way in which the claim does not hold, in plain words; empty if it does.</summary>
    public static IReadOnlyList<string> Findings(ChargingProblem problem, ScheduleClaim claim)
    {
        ArgumentNullException.ThrowIfNull(problem);
        ArgumentNullException.ThrowIfNull(claim);
        var findings = new List<string>();
        var stored = problem.InitialKwh;
        var cost = 0.0;
        var departed = -1;
        var trip = new double[problem.Departures.Length];
        var floor = 0.0;
        for (var i = 0; i <= problem.Count && findings.Count < MostFindings; i++)
        {
            if (Math.Abs(stored - claim.StoredKwh[i]) > EnergyTolerance)
            {
                findings.Add($"At {problem.Boundaries[i]} the stored energy is {stored} kWh; {claim.StoredKwh[i]} kWh was claimed.");
                break;
            }

            while (departed + 1 < problem.Departures.Length && problem.Departures[departed + 1].Boundary == i)
            {
                departed++;
                var missed = problem.Departures[departed].RequiredKwh - stored;
                Compare(findings, "target shortfall", Math.Max(0, missed), claim.TargetShortfallKwh[departed]);
                floor = Math.Min(stored, problem.LowerKwh[i]);
            }

            // With the taper more may be left to the time after the margin begins: the plan says so itself.
            if (!claim.WithTaper && departed + 1 < problem.Departures.Length && problem.Departures[departed + 1] is { MarginKept: true } next && next.DueBoundary == i
                && stored < next.RequiredKwh - LimitTolerance)
            {
                findings.Add($"At {problem.Boundaries[i]}, the finish margin before {problem.Boundaries[next.Boundary]}, {next.RequiredKwh} kWh are due and {stored} kWh stored.");
            }

            if (stored > problem.UpperKwh[i] + LimitTolerance && Limit(problem, claim, i) is var limit && stored > limit + LimitTolerance)
            {
                findings.Add($"At {problem.Boundaries[i]} the stored energy of {stored} kWh is above the limit of {limit} kWh.");
            }

            if (i == problem.Count)
            {
                break;
            }

            // Most intervals are off: only those that are not need their length.
            var on = claim.OnHours[i];
            if (on != 0 && HoursOf(problem, i) is var hours && !(on > 0 && on <= hours + 1e-9))
            {
                findings.Add($"In the interval from {problem.Boundaries[i]} the car charges for {on} h of {hours} h.");
            }

            if (problem.Place[i] == Place.Home && (on > 0 || problem.WarmUpKw is not null))
            {
                CurrentCheck.At(problem, claim, i, on, findings);
                cost += problem.WarmUpKwh(i) * problem.Price[i];
            }

            switch (problem.Place[i])
            {
                case Place.Road:
                    if (on > 0)
                    {
                        findings.Add($"The car charges at {problem.Boundaries[i]}, on the road.");
                    }

                    var after = stored - problem.DriveKwh[i];
                    if (after < floor)
                    {
                        trip[departed] += floor - after;
                        after = floor;
                    }

                    // Away charging may be planned beyond what the trip needs, to spare a later departure.
                    if (departed >= 0 && problem.Departures[departed].ReturnBoundary == i + 1 && claim.TripShortfallKwh[departed] > trip[departed])
                    {
                        after += claim.TripShortfallKwh[departed] - trip[departed];
                        trip[departed] = claim.TripShortfallKwh[departed];
                    }

                    stored = after;
                    break;
                case Place.Home:
                    stored = Charge(problem, i, claim.VoltsAcrossPhases * claim.CurrentA[i] / 1000, stored, on, claim.WithTaper, ref cost);
                    break;
                default:
                    stored = Charge(problem, i, problem.WallKw[i], stored, on, claim.WithTaper, ref cost);
                    break;
            }
        }

        for (var k = 0; k < trip.Length && findings.Count < MostFindings; k++)
        {
            Compare(findings, "trip shortfall", trip[k], claim.TripShortfallKwh[k]);
            if (claim.TripShortfallKwh[k] > problem.Departures[k].DriveKwh + EnergyTolerance)
            {
                findings.Add($"A trip shortfall of {claim.TripShortfallKwh[k]} kWh is more than the trip's {problem.Departures[k].DriveKwh} kWh.");
            }
        }

        if (findings.Count == 0 && Math.Abs(cost - claim.Cost) > MoneyTolerance * Math.Max(1, Math.Abs(cost)))
        {
            findings.Add($"The schedule costs {cost}; {claim.Cost} was claimed.");
        }

        return findings;
    }

    private static double HoursOf(ChargingProblem problem, int interval) =>
        (problem.Boundaries[interval + 1].ToUnixTimeTicks() - problem.Boundaries[interval].ToUnixTimeTicks()) / (double)NodaConstants.TicksPerHour;

    private static double Limit(ChargingProblem problem, ScheduleClaim claim, int boundary)
    {
        var limit = problem.UpperKwh[boundary];
        var until = problem.Boundaries[boundary] + claim.BegunEarlier;
        for (var b = boundary; b < problem.Count && problem.Boundaries[b] < until && problem.Place[b] == Place.Home; b++)
        {
            limit = Math.Max(limit, problem.UpperKwh[b + 1]);
        }

        return limit;
    }

    private static void Compare(List<string> findings, string what, double found, double claimed)
    {
        if (Math.Abs(found - claimed) > EnergyTolerance)
        {
            findings.Add($"The {what} is {found} kWh; {claimed} kWh was claimed.");
        }
    }

    private static double Charge(ChargingProblem problem, int i, double wallKw, double stored, double on, bool withTaper, ref double cost)
    {
        if (on <= 0)
        {
            return stored;
        }

        var car = problem.Constants;
        var cold = car.HeatingBelowC - problem.TemperatureC[i];
        var warming = cold <= 0 ? 0 : cold * car.HeatingKwPerKelvin;
        warming = warming > car.HeatingMaxKw ? car.HeatingMaxKw : warming;
        var intoBattery = (wallKw * car.ConversionEfficiency) - car.OverheadKw - warming;
        var rate = intoBattery > 0 ? intoBattery : 0;
        var end = stored + (rate * on);
        var wall = wallKw * on;

        // The car accepts at most floor + k (E - e): from the point where that is less than the rate, e closes in on E + floor / k.
        var accepts = car.TaperFloorKw + (car.TaperPerHour * (problem.UsableKwh - end));
        if (withTaper && rate > accepts)
        {
            var asymptote = problem.UsableKwh + (car.TaperFloorKw / car.TaperPerHour);
            var bend = asymptote - (rate / car.TaperPerHour);
            var straight = bend > stored ? (bend - stored) / rate : 0;
            var from = bend > stored ? bend : stored;
            end = Math.Min(problem.UsableKwh, asymptote - ((asymptote - from) * Math.Exp((straight - on) * car.TaperPerHour)));
            wall = (end - stored + ((car.OverheadKw + warming) * on)) / car.ConversionEfficiency;
        }

        cost += wall * problem.Price[i];
        return end;
    }
}
