namespace ScheduleOpt.Interchange.Requests;

/// <summary>Bills to hold the model against.</summary>
/// <param name="BilledKwh">Energy bill by bill. [kWh]</param>
/// <param name="ContainCar">Whether the car was charged on them.</param>
/// <param name="IsItsOwnSource">Whether the house load was made of the same figures, so that it proves nothing.</param>
public sealed record CalibrationBills(IReadOnlyList<double> BilledKwh, bool ContainCar, bool IsItsOwnSource)
{
    /// <summary>The days of each bill; none: twelve calendar months, January first.</summary>
    public IReadOnlyList<BillSpan>? Spans { get; init; }
}

/// <summary>Reads <c>calibration</c>: monthly bills to hold the model against.</summary>
internal static class CalibrationReader
{
    private const int Months = HouseLoads.BillCalibration.Months;

    // Both statistics are shares of the mean bill: of next to nothing they say nothing.
    private const double LeastMeanKwh = 1;

    /// <summary>Reads the bills; none where there are none.</summary>
    public static CalibrationBills? Read(JsonMembers body)
    {
        if (body.Optional("calibration")?.Members("billedKwh", "bills", "billsContainCar") is not { } bills)
        {
            return null;
        }

        var before = body.Faults.Count;
        var form = bills.ExactlyOne("billedKwh", "bills");
        var dated = form is { } list && bills.Has("bills") ? DatedBillsReader.Read(list) : null;
        var billed = bills.Has("bills") ? dated?.Kwh : form?.Numbers(Months, Months, new(0, 50_000, "kWh"));
        var contain = bills.Required("billsContainCar", "Say whether the car was charged on these bills.")?.Flag();
        if (form is { } given && billed?.Average() < LeastMeanKwh)
        {
            given.Fault(FormattableString.Invariant($"Must hold at least {LeastMeanKwh} kWh a bill in the mean."));
        }

        if (!body.Has("houseLoad"))
        {
            body.Faults.Add("#/houseLoad", "Is missing. Bills are held against the modelled house: give its load.");
        }

        if (contain == true && !body.Has("today"))
        {
            body.Faults.Add("#/today", "Is missing. Bills that contain the car are held against today's set-up, rate plan and behaviour.");
        }

        return body.Faults.Count > before ? null : new CalibrationBills(billed!, contain!.Value, !contain.Value && IsSame(body, billed!)) { Spans = dated?.Spans };
    }

    private static bool IsSame(JsonMembers body, double[] billed) =>
        body.Optional("houseLoad")!.Value.Element is { ValueKind: System.Text.Json.JsonValueKind.Object } load
        && load.TryGetProperty("monthlyKwh", out var months) && months.ValueKind == System.Text.Json.JsonValueKind.Array
        && months.EnumerateArray().Select(m => m.ValueKind == System.Text.Json.JsonValueKind.Number && m.TryGetDouble(out var kwh) ? kwh : double.NaN).SequenceEqual(billed);
}
