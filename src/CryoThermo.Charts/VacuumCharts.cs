using CryoThermo.Insulation;

namespace CryoThermo.Charts;

/// <summary>Charts of vacuum spaces.</summary>
public static class VacuumCharts
{
    /// <summary>The pressure and that of each gas against time.</summary>
    /// <param name="course">A course of the pressure.</param>
    public static VacuumCourseChart AgainstTime(this VacuumCourse course)
    {
        ArgumentNullException.ThrowIfNull(course);
        return new(course);
    }
}
