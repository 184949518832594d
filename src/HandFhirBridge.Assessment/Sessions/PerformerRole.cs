namespace HandFhirBridge.Assessment.Sessions;

/// <summary>In what capacity somebody gave the test.</summary>
public enum PerformerRole
{
    /// <summary>Occupational therapist.</summary>
    OccupationalTherapist,

    /// <summary>Hand therapist, occupational or physical.</summary>
    HandTherapist,

    /// <summary>Physical therapist.</summary>
    PhysicalTherapist,

    /// <summary>Occupational therapy assistant.</summary>
    OccupationalTherapyAssistant,

    /// <summary>Student under supervision.</summary>
    StudentUnderSupervision,

    /// <summary>Anyone else.</summary>
    Other,
}
