namespace ScheduleOpt.Core.Homes.Panels;

/// <summary>One load of a dwelling's load list.</summary>
/// <param name="Name">What it is.</param>
/// <param name="Kva">Its nameplate, or for lighting and receptacles what the code assigns; 0 to 100. [kVA]</param>
/// <param name="Kind">How it counts.</param>
public sealed record PanelLoad(string Name, double Kva, PanelLoadKind Kind);

/// <summary>How a load counts in the optional method for an existing dwelling.</summary>
public enum PanelLoadKind
{
    /// <summary>General lighting, receptacles and small-appliance circuits, as the code assigns them.</summary>
    General,

    /// <summary>A fixed appliance, existing heating and cooling included.</summary>
    Appliance,

    /// <summary>Heating or cooling that is added.</summary>
    NewHeatingOrCooling,
}
