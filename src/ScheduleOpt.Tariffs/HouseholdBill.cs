namespace ScheduleOpt.Tariffs;

/// <summary>The bills of a household with a car.</summary>
/// <param name="House">The bill of the house's meter; the car's use is in it where the plan is for the whole house.</param>
/// <param name="Car">The bill of the car's own meter or submeter; none where the plan is for the whole house.</param>
public sealed record HouseholdBill(Bill House, Bill? Car)
{
    /// <summary>What the household pays. [currency]</summary>
    public decimal Total => House.Total + (Car?.Total ?? 0);
}
